#!/usr/bin/env bash
# Solves hoofload's problems with other programs and writes docs/other-programs.md and tests/reference/values.json.
#
#   bash tests/reference/run.sh                 all of it, some minutes
#   bash tests/reference/run.sh --only "foot c" the rows whose name starts so; what was found for the others stays
#
# The other programs come from Debian's packages, which this script installs; hoofload itself does not need them.
set -euo pipefail
cd "$(dirname "$0")/../.."
bash scenarios/install.sh --studies
{ [ -f build/build.ninja ] || cmake -C .cmake/release.cmake -S . -B build -G Ninja; ninja -C build reference_export_problem; } >&2
work=build/reference
exporter=build/tests/reference_export_problem
only=""
case "${1:-}" in
  "") ;;
  --only) only="${2:?text}" ;;
  *) echo "usage: bash tests/reference/run.sh [--only START]" >&2; exit 2 ;;
esac
/usr/bin/python3 tests/reference/compare.py "$exporter" "$work" --only "$only" --values tests/reference/values.json \
  --table docs/other-programs.md
