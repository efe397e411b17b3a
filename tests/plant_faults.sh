#!/usr/bin/env bash
# Do the tests notice? Plants the faults of tests/faults/faults.txt one by one in a copy of the tree, builds, and runs the tests
# that are there to notice. A line each; the last line is "N planted, N caught", the exit code 0 only if all were caught.
#
#   bash tests/plant_faults.sh            all of them, some minutes
#   bash tests/plant_faults.sh friction   those whose name contains the word
#
# The copy and its build stay in build/faults and are used again. A fault that no longer fits its source, does not compile or
# whose tests fail without it is an error of this set, not a catch. JOBS=n sets the number of compilers (default 2).
set -uo pipefail
cd "$(dirname "$0")/.."
word="${1:-}"
list=tests/faults/faults.txt
copy="$PWD/build/faults/tree" build="$PWD/build/faults/build" log="$PWD/build/faults/log.txt"
jobs="${JOBS:-2}"
limit=600  # seconds for the tests of one fault: one that makes them run for ever must end too

give_up() {
  echo "plant_faults: $1" >&2
  exit 1
}

# Files that are equal keep their age, so that only what differs is built again.
copy_tree() {
  local file
  mkdir -p "$copy"
  (cd "$copy" && find . -type f) | while read -r file; do [ -e "$file" ] || rm -f "$copy/$file"; done
  find . -path './build*' -prune -o -path ./.git -prune -o -type f -print | while read -r file; do
    cmp -s "$file" "$copy/$file" && continue
    mkdir -p "$copy/$(dirname "$file")" && cp "$file" "$copy/$file"
  done
}

compile() { ninja -C "$build" -j "$jobs" "$@" >"$log" 2>&1; }

# Runs "binary filter" on the copy; its output goes to the log.
run_tests() { (cd "$copy" && timeout "$limit" "$build/tests/$1" --gtest_filter="$2" --gtest_color=no) >"$log" 2>&1; }

count_run() { sed -n 's/^\[==========\] \([0-9]*\) tests\{0,1\} from .* ran.*/\1/p' "$log"; }

# The first test that failed; where the binary broke down, the one that was at work.
first_failure() {
  local name
  name=$(sed -n 's/^\[  FAILED  \] \([^ ,]*\).* (.*/\1/p' "$log" | head -1)
  [ -n "$name" ] || name="$(sed -n 's/^\[ RUN      \] //p' "$log" | tail -1) (broke down)"
  echo "$name"
}

# Puts $to in the place of $from, which must stand in the file once.
plant() {
  local text rest
  text=$(cat "$copy/$file"; printf x) && text="${text%x}"
  rest="${text#*"$from"}"
  [ "$rest" != "$text" ] || give_up "$name: its text no longer stands in $file; write the fault anew"
  [ "${rest#*"$from"}" = "$rest" ] || give_up "$name: its text stands in $file more than once; make it longer"
  [ "$from" != "$to" ] || give_up "$name: changes nothing"
  printf '%s' "${text%%"$from"*}$to$rest" >"$copy/$file"
}

planted=0 caught=0
try_fault() {
  [[ "$name" == *"$word"* ]] || return 0
  [ -f "$copy/$file" ] || give_up "$name: there is no $file"
  compile "$binary" || give_up "the tree does not build, see $log"
  run_tests "$binary" "$filter" || give_up "$name: its tests fail without it, see $log"
  [ "$(count_run)" -gt 0 ] 2>/dev/null || give_up "$name: no test has the name $filter"
  plant
  compile "$binary" || give_up "$name: does not compile, see $log"
  planted=$((planted + 1))
  run_tests "$binary" "$filter"
  case $? in
    0) echo "NOT CAUGHT  $name ($file)" ;;
    124) echo "NOT CAUGHT  $name ($file): its tests did not end within $limit s" ;;
    *) caught=$((caught + 1)); echo "caught  $name ($file) by $(first_failure)" ;;
  esac
  cp "$file" "$copy/$file"
}

copy_tree
cmake -C "$copy/.cmake/release.cmake" -S "$copy" -B "$build" -G Ninja >"$log" 2>&1 || give_up "CMake could not configure, see $log"
name="" file="" from="" to="" binary="" filter=""
while IFS= read -r line; do
  value="${line#*: }"
  case "$line" in
    "name: "*) name="$value" ;;
    "file: "*) file="$value" ;;
    "from: "*) from="$value" ;;
    "to: "*) to="$value" ;;
    "test: "*) binary="${value%% *}" filter="${value#* }"; try_fault ;;
  esac
done <"$list"
echo "$planted planted, $caught caught"
[ "$planted" -gt 0 ] && [ "$planted" -eq "$caught" ]
