#!/usr/bin/env bash
# The study of the foot in three dimensions: builds its program, solves 21 decks with CalculiX (some minutes), and writes
# tests/reference/foot3d.json and the tables of docs/three-dimensional.md.
#
#   bash tests/reference/foot3d.sh            reuses the solutions in build/foot3d
#   bash tests/reference/foot3d.sh --anew     solves all again
#   bash tests/reference/foot3d.sh --models   only the program's two models, beside the solutions in foot3d.json
set -euo pipefail
cd "$(dirname "$0")/../.."
bash scenarios/install.sh --tests
cmake -C .cmake/release.cmake -S . -B build -G Ninja
ninja -C build -j "${JOBS:-2}" reference_foot3d
[ "${1:-}" = "--anew" ] && rm -rf build/foot3d
program="$PWD/build/tests/reference_foot3d"
study() { /usr/bin/python3 tests/reference/foot3d_study.py "$program" build/foot3d "$@"; }
results="tests/reference/foot3d.json docs/three-dimensional.md"
if [ "${1:-}" = "--models" ]; then
  study models $results
else
  study solve
  study write $results
fi
