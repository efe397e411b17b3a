#!/usr/bin/env bash
# Installs the Debian packages that hoofload needs. Safe to run again: what is there is left alone, and if nothing is
# missing the package manager is not called at all.
#
#   bash scenarios/install.sh            what the program needs
#   bash scenarios/install.sh --tests    what the tests need as well (CalculiX and numpy for the cross-check)
#   bash scenarios/install.sh --page     what the browser tests of the page need; chromium also turns reports into PDF
#   bash scenarios/install.sh --cluster  what the test on a cluster of one node needs
#   bash scenarios/install.sh --film     what the moving picture drawn by VTK needs (viz/film/film.sh), some 1.5 GB
#   bash scenarios/install.sh --studies  what the long studies need on top (the other programs)
set -euo pipefail

program=(g++ cmake ninja-build ccache git libeigen3-dev libgmsh-dev libboost-dev
         nlohmann-json3-dev libtomlplusplus-dev libcli11-dev libcpp-httplib-dev zlib1g-dev
         libsqlite3-dev)
tests=(libgtest-dev calculix-ccx python3-numpy sqlite3 bc procps)
cluster=(slurm-wlm munge hostname)
studies=(python3-dolfinx python3-getfem)
page=(chromium)
film=(libvtk9-dev xvfb xauth ffmpeg)
# A node from elsewhere may bring npm of its own, and then shuts Debian's out.
if ! command -v node >/dev/null || ! command -v npm >/dev/null; then page+=(nodejs npm); fi

# Echoes those of the given packages that are not installed.
missing_packages() {
  local package
  for package in "$@"; do
    dpkg-query --show --showformat='${db:Status-Status}\n' "$package" 2>/dev/null | grep -qx installed || echo "$package"
  done
}

# Runs a command as root: directly, or with sudo.
as_root() {
  if [ "$(id -u)" -eq 0 ]; then
    "$@"
  elif command -v sudo >/dev/null; then
    sudo "$@"
  else
    echo "install: root or sudo is needed to install packages" >&2
    return 1
  fi
}

wanted=("${program[@]}")
case "${1:-}" in
  "") ;;
  --tests) wanted+=("${tests[@]}") ;;
  --studies) wanted+=("${tests[@]}" "${studies[@]}" "${cluster[@]}") ;;
  --cluster) wanted+=("${tests[@]}" "${cluster[@]}") ;;
  --film) wanted+=("${film[@]}") ;;
  --page) wanted=("${page[@]}") ;;
  *) echo "usage: bash scenarios/install.sh [--tests | --page | --cluster | --film | --studies]" >&2; exit 2 ;;
esac
if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
  echo "install: this is not a Debian system; install by hand: ${wanted[*]}" >&2
  exit 5
fi
mapfile -t missing < <(missing_packages "${wanted[@]}")
if [ "${#missing[@]}" -eq 0 ]; then
  echo "install: all ${#wanted[@]} Debian packages are there" >&2
  exit 0
fi
echo "install: installing ${#missing[@]} Debian packages: ${missing[*]}" >&2
as_root apt-get update -q >&2 || echo "install: the package lists could not be refreshed; trying with the old ones" >&2
if ! as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "${missing[@]}" >&2; then
  echo "install: apt-get could not install: ${missing[*]}" >&2
  exit 5
fi
