#!/usr/bin/env bash
# The page's server under sanitizers (addresses, leaks, undefined behaviour): its tests, then 100,000 broken requests.
#
#   bash tests/page_server/sanitized.sh          build in build-sanitizers, some minutes; then half an hour or more
#   bash tests/page_server/sanitized.sh --quick  3,000 requests instead
set -euo pipefail
cd "$(dirname "$0")/../.."
cmake -C .cmake/sanitizers.cmake -S . -B build-sanitizers -G Ninja
ninja -C build-sanitizers -j "${JOBS:-2}" page_server_test
export ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=print_stacktrace=1
build-sanitizers/tests/page_server_test --gtest_filter='-*Study.*'
[ "${1:-}" = "--quick" ] || build-sanitizers/tests/page_server_test --gtest_filter='PageFuzzStudy.*'
