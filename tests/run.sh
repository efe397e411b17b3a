#!/usr/bin/env bash
# Builds and runs all tests; the last line is "N passed, N failed", the exit code 0 only if nothing failed.
#
#   bash tests/run.sh             what every change must pass
#   bash tests/run.sh --studies   the long set as well, hours: other programs and the foot in three dimensions solved anew, test
#                                 suites whose name ends in Study, planted faults, a sweep on a cluster of one node (as root); docs/validation.md is
#                                 written anew
#
# JOBS=n sets the number of compilers and test binaries at work (default 2). Of the long set's parts each counts as one test.
set -uo pipefail
cd "$(dirname "$0")/.."
jobs="${JOBS:-2}"
filter="-*Study.*" packages=--tests
case "${1:-}" in
  "") ;;
  --studies) filter="*" packages=--studies ;;
  *) echo "usage: bash tests/run.sh [--studies]" >&2; exit 2 ;;
esac

# The last line must stand whatever happens before it.
give_up() {
  echo "run: $1" >&2
  echo "0 passed, 1 failed"
  exit 1
}

# Sum of an attribute over lines that begin with a tag, in all reports.
sum_of() {
  grep -ho "<$1 .*" "$reports"/*.xml 2>/dev/null | sed -n "s/.* $2=\"\([0-9]*\)\".*/\1/p" | awk '{s += $1} END {print s + 0}'
}

# Runs a command that is no test binary and counts it as one test.
passed_beside=0 failed_beside=0
beside() {
  echo "run: $*"
  if "$@"; then passed_beside=$((passed_beside + 1)); else failed_beside=$((failed_beside + 1)); echo "run: FAILED: $*" >&2; fi
}

bash scenarios/install.sh "$packages" || give_up "packages are missing"
cmake -C .cmake/release.cmake -S . -B build -G Ninja || give_up "CMake could not configure"
ninja -C build -j "$jobs" || give_up "the build failed"

# Before the tests, which hold hoofload against what these find.
if [ "$filter" = "*" ]; then
  beside bash tests/reference/run.sh
  beside bash tests/reference/foot3d.sh --anew
fi

reports="$PWD/build/test-reports"
rm -rf "$reports" && mkdir -p "$reports"
GTEST_FILTER="$filter" GTEST_OUTPUT="xml:$reports/" GTEST_COLOR=no \
  ctest --test-dir build --output-on-failure --parallel "$jobs" | tee "$reports/ctest.txt"
result=${PIPESTATUS[0]}

beside /usr/bin/python3 tests/validation/page.py check "$reports"
if [ "$filter" = "*" ]; then
  beside /usr/bin/python3 tests/validation/page.py write "$reports"
  beside bash tests/plant_faults.sh
  if [ "$(id -u)" -eq 0 ]; then beside bash tests/cluster/run.sh; fi
fi

total=$(sum_of testsuites tests)
failed=$(( $(sum_of testsuites failures) + $(sum_of testsuites errors) ))
disabled=$(sum_of testsuites disabled)
skipped=$(sum_of testsuite skipped)
passed=$(( total - failed - disabled - skipped ))
# A binary that crashed or found no test leaves no report: it counts as one failure.
if [ "$result" -ne 0 ] || [ "$passed" -eq 0 ]; then
  broken=$(grep -c -E '^[[:space:]]+[0-9]+ - [^ ]+ \(' "$reports/ctest.txt" || true)
  reported=$(grep -l -E '<testsuites .*(failures|errors)="[1-9]' "$reports"/*.xml 2>/dev/null | wc -l)
  lost=$(( broken > reported ? broken - reported : 0 ))
  failed=$(( failed + lost ))
  [ "$failed" -eq 0 ] && failed=1
fi
passed=$(( passed + passed_beside )) failed=$(( failed + failed_beside ))
if [ $(( disabled + skipped )) -gt 0 ]; then
  echo "run: $skipped skipped, $disabled disabled"
fi

# The page in a browser; without one it says "skipped: ..." and counts for nothing.
bash tests/page/run.sh | tee "$reports/page.txt"
counts=$(tail -n 1 "$reports/page.txt" | sed -n 's/^\([0-9]*\) passed, \([0-9]*\) failed$/\1 \2/p')
if [ -n "$counts" ]; then
  passed=$(( passed + ${counts% *} ))
  failed=$(( failed + ${counts#* } ))
elif ! tail -n 1 "$reports/page.txt" | grep -q '^skipped: '; then
  failed=$(( failed + 1 ))
fi
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
