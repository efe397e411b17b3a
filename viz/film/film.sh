#!/usr/bin/env bash
# The stance as a moving picture, drawn by VTK: frames as PNG, joined as WebM and GIF.
#
#   bash viz/film/film.sh                 the demo film; docs/pictures/page/film.gif is made anew
#   bash viz/film/film.sh CASE FOLDER     of a case file: FOLDER/film.webm, FOLDER/film.gif, FOLDER/frames
#
# Installs VTK, a virtual display and ffmpeg (some 1.5 GB; nothing else here needs them) and builds in build-film.
set -euo pipefail
cd "$(dirname "$0")/../.."
case_file="${1:-viz/film/film.toml}"
out="${2:-build-film/demo}"
bash scenarios/install.sh --film
cmake -C .cmake/release.cmake -S . -B build-film -G Ninja -DHOOFLOAD_FILM=ON -DHOOFLOAD_TESTS=OFF >&2
ninja -C build-film -j "${JOBS:-2}" hoofload hoofload_film >&2
rm -rf "$out/fields" "$out/frames"
mkdir -p "$out"
build-film/hoofload film "$case_file" --out "$out/fields"
xvfb-run -a -s "-screen 0 1600x1000x24" build-film/hoofload_film "$out/fields" "$out/frames"
ffmpeg -v error -y -framerate 6 -i "$out/frames/%03d.png" -c:v libvpx-vp9 -crf 34 -b:v 0 "$out/film.webm"
ffmpeg -v error -y -framerate 6 -i "$out/frames/%03d.png" \
  -filter_complex '[0]scale=1080:-1:flags=lanczos,split[a][b];[a]palettegen=max_colors=64:reserve_transparent=0[p];[b][p]paletteuse=dither=none' "$out/film.gif"
if [ $# -eq 0 ]; then cp "$out/film.gif" docs/pictures/page/film.gif; fi
ls -l "$out"/film.*
