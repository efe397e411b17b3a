#!/usr/bin/env bash
# Builds the program and compares the demo's nine options. From a bare Debian 12: bash scenarios/demo.sh
# JOBS=n sets the number of compilers at work (default: one a core).
set -euo pipefail
cd "$(dirname "$0")/.."
say() { printf '\n== %s\n' "$*" >&2; }

say "Debian packages"
bash scenarios/install.sh

say "Building build/hoofload"
cmake --preset release >&2
cmake --build build --target hoofload --parallel "${JOBS:-$(nproc)}" >&2

say "Comparing the demo's options (scenarios/cases/demo.toml)"
build/hoofload compare scenarios/cases/demo.toml --out build/demo

say "Pictures and data are in build/demo"
find build/demo -type f \( -name '*.svg' -o -name '*.png' \) | sort >&2
