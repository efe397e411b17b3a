#!/usr/bin/env bash
# Makes docs/pictures/page/stance.gif: the stance from 20 to 80 % in steps of 5 %, two ways of shoeing side by side.
#
#   bash tests/page/stance.sh     after build/hoofload has been built; some minutes; needs Debian's ffmpeg as well
#
# The single frames stay in build/page-tests/stance as PNG; KEPT_FRAMES=1 joins those that are there.
set -euo pipefail
cd "$(dirname "$0")/../.."
out=docs/pictures/page/stance.gif

[ -x build/hoofload ] || { echo "stance: build/hoofload is not there" >&2; exit 1; }
source tests/page/prepare.sh
command -v ffmpeg >/dev/null || skip "no ffmpeg to join the frames"
frames="$home/stance"
if [ -z "${KEPT_FRAMES:-}" ]; then
  rm -rf "$frames" && mkdir -p "$frames"
  node tests/page/stance.mjs "$frames"
fi
# Two frames a second, the last for two seconds.
ffmpeg -v error -y -framerate 2 -i "$frames/%03d.png" \
  -filter_complex '[0]tpad=stop_mode=clone:stop=3,split[a][b];[a]palettegen=max_colors=96:reserve_transparent=0[p];[b][p]paletteuse=dither=none' "$out"
ls -l "$out"
