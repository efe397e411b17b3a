#!/usr/bin/env bash
# Makes docs/pictures/page anew: the page on three screens, and the demo's report, job sheet and owner's sheet, as PNG.
#
#   bash tests/page/pictures.sh     after build/hoofload has been built; a few minutes; needs Debian's ffmpeg as well
#
# REPORT=FILE.html takes a report that is there already.
set -euo pipefail
cd "$(dirname "$0")/../.."
out=docs/pictures/page

[ -x build/hoofload ] || { echo "pictures: build/hoofload is not there" >&2; exit 1; }
source tests/page/prepare.sh
command -v ffmpeg >/dev/null || skip "no ffmpeg to make the pictures small"
raw="$home/pictures"
rm -rf "$raw" && mkdir -p "$raw" "$out"
if [ -z "${REPORT:-}" ]; then
  REPORT="$raw/report.html"
  build/hoofload compare scenarios/cases/demo.toml --report "$REPORT" --quiet >"$raw/table.txt"
fi
REPORT=$(realpath "$REPORT") node tests/page/pictures.mjs "$raw"

# 96 colours of the picture's own: a third of the bytes.
for picture in "$raw"/*.png; do
  ffmpeg -v error -y -i "$picture" \
    -filter_complex '[0]split[a][b];[a]palettegen=max_colors=96:reserve_transparent=0[p];[b][p]paletteuse=dither=none' \
    "$out/$(basename "$picture")"
done
du -sh "$out"
