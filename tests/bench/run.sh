#!/usr/bin/env bash
# hoofload's own whole-process run of the section that other programs solved: one JSON line on stdout.
#
#   bash tests/bench/run.sh --peer-case c --size 5k [--kappa 1500] [--element displacement]
#
# Keys as the other programs' drivers print them (tests/reference): user_s, rss_MiB, sink_mm, share_pct, p_mean_MPa, p_peak_MPa.
set -euo pipefail
cd "$(dirname "$0")/../.."
{ [ -f build/build.ninja ] || cmake -C .cmake/release.cmake -S . -B build -G Ninja; ninja -C build bench_peer; } >&2
exec build/tests/bench_peer "$@"
