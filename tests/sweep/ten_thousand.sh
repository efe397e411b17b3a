#!/usr/bin/env bash
# The packing study as a sweep of the axisymmetric model, once undisturbed and once killed (kill -9) at three random moments:
# the two tables must be equal to the last byte. Says what it measured; exit code 0 only if they are.
#
#   bash tests/sweep/ten_thousand.sh            10,000 runs (some minutes on one thread each time)
#   bash tests/sweep/ten_thousand.sh 200        fewer
#
# HOOFLOAD names the program (build/hoofload), THREADS its threads (1), FOLDER where it works (a temporary one; an
# undisturbed sweep that is there is gone on with).
set -euo pipefail
cd "$(dirname "$0")/../.."
runs="${1:-10000}"
hoofload="$(realpath "${HOOFLOAD:-build/hoofload}")"
threads="${THREADS:-1}"
folder="${FOLDER:-$(mktemp -d)}"
mkdir -p "$folder"
cp tests/sweep/packing.toml "$folder/packing.toml"
sed "s/^samples = .*/samples = $runs/" tests/sweep/plan.toml > "$folder/plan.toml"
cd "$folder"
rm -f killed.sqlite* ./*.csv

fail() { echo "ten_thousand: $1" >&2; exit 1; }

# Exit code 4 says that some runs have reasons instead of values: they are rows as well.
solve() { "$hoofload" sweep plan.toml --out "$1" --threads "$threads" --quiet || [ $? -eq 4 ]; } 2>/dev/null

stored() { sqlite3 "$1" 'SELECT count(*) FROM run' 2>/dev/null || echo 0; }

solve undisturbed.sqlite
seconds=$(sqlite3 undisturbed.sqlite "SELECT round(sum(seconds) / $threads, 2) FROM run")
echo "undisturbed: $(stored undisturbed.sqlite) runs in $seconds s, $(stat -c %s undisturbed.sqlite) bytes"

before=0
for kill in 1 2 3; do
  solve killed.sqlite &
  waiting=$!
  sleep "$(echo "scale=3; 0.2 + $seconds * (30 + $RANDOM % 170) / 1000" | bc)"
  child=$(pgrep -P "$waiting") || fail "it ended before kill $kill"
  kill -KILL "$child" 2>/dev/null || fail "it ended before kill $kill"
  wait "$waiting" 2>/dev/null || true
  now=$(stored killed.sqlite)
  echo "killed $kill: $now runs are there"
  [ "$now" -gt "$before" ] && [ "$now" -lt "$runs" ] || fail "kill $kill was no test: $before runs before, $now after"
  before=$now
done
solve killed.sqlite
for name in undisturbed killed; do "$hoofload" export "$name.sqlite" --csv "$name.csv"; done
cmp undisturbed.csv killed.csv || fail "the tables differ"
lines=$(wc -l < undisturbed.csv)
echo "equal to the last byte: $lines lines, sha256 $(sha256sum undisturbed.csv | cut -c1-16)"
echo "outcomes: $(sqlite3 undisturbed.sqlite "SELECT group_concat(outcome || ' ' || n, ', ') FROM (SELECT outcome, count(*) n FROM run GROUP BY outcome)")"
