#!/usr/bin/env bash
# Drives the page in a browser; the last line is "N passed, N failed", or "skipped: ..." where there is no browser.
#
#   bash tests/page/run.sh     after build/hoofload has been built
#
# Node's packages come by the lock file beside this script and stay in build/page-tests.
set -uo pipefail
cd "$(dirname "$0")/../.."
home="$PWD/build/page-tests"

skip() {
  echo "skipped: $1"
  exit 0
}

[ -x build/hoofload ] || { echo "page: build/hoofload is not there" >&2; echo "0 passed, 1 failed"; exit 1; }
bash scenarios/install.sh --page || skip "the packages of the page's tests cannot be had"
command -v node >/dev/null && command -v npm >/dev/null || skip "no node and npm for the page's tests"
chromium=$(command -v chromium) || skip "no chromium for the page's tests"
mkdir -p "$home"
if ! cmp -s tests/page/package-lock.json "$home/installed-lock.json"; then
  cp tests/page/package.json tests/page/package-lock.json "$home/"
  (cd "$home" && npm ci --no-audit --no-fund --ignore-scripts >npm.log 2>&1) || skip "npm could not install playwright-core and axe-core ($home/npm.log)"
  cp tests/page/package-lock.json "$home/installed-lock.json"
fi

count_of() { sed -n "s/^# $1 \([0-9]*\)$/\1/p" "$home/tap.txt"; }
drive() {
  PAGE_MODULES="$home" HOOFLOAD="$PWD/build/hoofload" CHROMIUM="$chromium" \
    timeout 600 node --test --test-reporter=tap tests/page/page.test.mjs >"$home/tap.txt" 2>&1
  grep -E '^# slider|^not ok|^ok' "$home/tap.txt"
  passed=$(count_of pass)
  failed=$(( $(count_of fail || echo 0) + $(count_of cancelled || echo 0) ))
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
