#!/usr/bin/env bash
# Builds the program and compares the demo's nine options. From a bare Debian 12: bash scenarios/demo.sh
#
#   bash scenarios/demo.sh          table to stdout; pictures and data in build/demo, named at the end
#   bash scenarios/demo.sh --docs   copies the table into README.md and pictures into docs/pictures as well
#
# JOBS=n sets the number of compilers at work (default: one a core).
set -euo pipefail
cd "$(dirname "$0")/.."
out=build/demo
say() { printf '\n== %s\n' "$*" >&2; }

case "${1:-}" in
  "" | --docs) ;;
  *) echo "usage: bash scenarios/demo.sh [--docs]" >&2; exit 2 ;;
esac

# Puts the table (without its lists of what got worse and better) between README.md's markers, and the pictures that
# docs/pictures holds in their place.
refresh_docs() {
  awk -v table="$out/table.txt" '
    /<!-- demo-table:end -->/ { inside = 0 }
    !inside && !/<!-- demo-table:begin/ { print }
    /<!-- demo-table:begin/ { inside = 1; print; print "```text"
      while ((getline line < table) > 0 && line !~ /^What got/) print line
      print "```" }
  ' README.md > "$out/README.md"
  cp "$out/README.md" README.md
  mkdir -p docs/pictures
  local picture
  for picture in docs/pictures/*.svg; do
    if [ -e "$out/pictures/$(basename "$picture")" ]; then cp "$out/pictures/$(basename "$picture")" "$picture"; fi
  done
}

say "Debian packages"
bash scenarios/install.sh

say "Building build/hoofload"
cmake -C .cmake/release.cmake -S . -B build -G Ninja >&2
cmake --build build --target hoofload --parallel "${JOBS:-$(nproc)}" >&2

say "Comparing the demo's options (scenarios/cases/demo.toml)"
rm -rf "$out"
mkdir -p "$out"
code=0
build/hoofload compare scenarios/cases/demo.toml --out "$out" > "$out/table.txt" || code=$?
cat "$out/table.txt"
if [ "${1:-}" = --docs ]; then refresh_docs; fi

say "Pictures: $out/pictures. Fields for a VTK reader: $out/fields. All values: $out/table.md, $out/result.json. This table: $out/table.txt"
say "See and change it in a browser: build/hoofload serve"
exit "$code"
