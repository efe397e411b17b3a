#!/usr/bin/env bash
# Speed, as ratios measured in one run on one machine.
#
#   bash tests/bench/run.sh --peer-case c --size 5k [--kappa 1500] [--element displacement]
#       hoofload's own whole-process run of the section that other programs solved: one JSON line. Keys as the other programs'
#       drivers print them (tests/reference): user_s, rss_MiB, sink_mm, share_pct, p_mean_MPa, p_peak_MPa. The mesh is made once
#       and read from a file, as theirs is.
#   bash tests/bench/run.sh --targets [--all]
#       every speed target with what was measured beside it (docs/performance.md); runs ccx, dolfinx and GetFEM where they are
#       installed, at 5 thousand nodes or with --all at 20 and 80 thousand as well.
set -euo pipefail
cd "$(dirname "$0")/../.."
build() {
  { [ -f build/build.ninja ] || cmake -C .cmake/release.cmake -S . -B build -G Ninja; ninja -C build -j2 "$@"; } >&2
}
if [ "${1:-}" = --targets ]; then
  build hoofload bench_peer bench_peer_mesh bench_targets reference_export_problem
  exec /usr/bin/python3 tests/bench/targets.py "${@:2}"
fi
build bench_peer bench_peer_mesh
variant=c size=5k
for ((k = 1; k < $#; ++k)); do
  next=$((k + 1))
  case "${!k}" in
    --peer-case) variant="${!next}" ;;
    --size) size="${!next}" ;;
  esac
done
parts=whole
[ "$variant" = c ] && parts=split
mesh="build/tests/peer-mesh-$size-$parts.txt"
[ -f "$mesh" ] || build/tests/bench_peer_mesh "$size" "$parts" "$mesh"
exec build/tests/bench_peer --mesh "$mesh" "$@"
