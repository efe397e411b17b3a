#!/usr/bin/env bash
# Drives the page in a browser; the last line is "N passed, N failed", or "skipped: ..." where there is no browser.
#
#   bash tests/page/run.sh     after build/hoofload has been built
set -uo pipefail
cd "$(dirname "$0")/../.."

[ -x build/hoofload ] || { echo "page: build/hoofload is not there" >&2; echo "0 passed, 1 failed"; exit 1; }
source tests/page/prepare.sh

count_of() { sed -n "s/^# $1 \([0-9]*\)$/\1/p" "$home/tap.txt"; }
drive() {
  timeout 600 node --test --test-reporter=tap tests/page/page.test.mjs >"$home/tap.txt" 2>&1
  grep -E '^# slider|^not ok|^ok' "$home/tap.txt"
  passed=$(count_of pass)
  local failures cancelled
  failures=$(count_of fail) cancelled=$(count_of cancelled)
  failed=$(( ${failures:-0} + ${cancelled:-0} ))
  if [ -z "$passed" ]; then passed=0 failed=1; fi
  if [ "$failed" -gt 0 ]; then sed -n '/^not ok/,/^  \.\.\./p' "$home/tap.txt"; fi
}

drive
# On a machine with other work a browser can miss its time: a second run decides, and both are shown.
if [ "$failed" -gt 0 ]; then
  echo "page: $failed failed; once more"
  drive
fi
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
