# For run.sh and pictures.sh, which read it from the top of the tree: what a browser on a running page needs. Sets home
# and chromium; where something is missing the script ends with "skipped: ...". Node's packages come by the lock file
# beside this script and stay in build/page-tests.
home="$PWD/build/page-tests"

skip() {
  echo "skipped: $1"
  exit 0
}

bash scenarios/install.sh --page || skip "the packages of the page's tests cannot be had"
command -v node >/dev/null && command -v npm >/dev/null || skip "no node and npm for the page's tests"
chromium=$(command -v chromium) || skip "no chromium for the page's tests"
mkdir -p "$home"
if ! cmp -s tests/page/package-lock.json "$home/installed-lock.json"; then
  cp tests/page/package.json tests/page/package-lock.json "$home/"
  (cd "$home" && npm ci --no-audit --no-fund --ignore-scripts >npm.log 2>&1) || skip "npm could not install playwright-core and axe-core ($home/npm.log)"
  cp tests/page/package-lock.json "$home/installed-lock.json"
fi
# What the server keeps between starts: none of another run's, none of the user's.
rm -rf "$home/cache"
export XDG_CACHE_HOME="$home/cache"
export PAGE_MODULES="$home" HOOFLOAD="$PWD/build/hoofload" CHROMIUM="$chromium"
