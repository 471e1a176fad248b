#!/usr/bin/env bash
# Installs what building, testing and the demo need on Debian 12, as root or with sudo. Safe to run again: what is
# there already is left alone. Usage: tools/setup.sh [build|test|bench|check]
set -euo pipefail
what=${1:-build}

packages=(g++ cmake ninja-build pkg-config
  libopencv-core-dev libopencv-imgproc-dev libopencv-features2d-dev libopencv-calib3d-dev libopencv-dnn-dev
  libflann-dev liblz4-dev nlohmann-json3-dev libspdlog-dev libsqlite3-dev libsqlitecpp-dev libeigen3-dev
  libnlopt-dev libnlopt-cxx-dev libboost-dev libcli11-dev libcsv-dev libexiv2-dev libheif-dev libcpp-httplib-dev
  libjpeg62-turbo-dev libpng-dev libtiff-dev libssl-dev zlib1g-dev libgtest-dev libgmock-dev libbenchmark-dev
  libembree-dev libutfcpp-dev libseccomp-dev libutf8proc-dev libzip-dev libpugixml-dev)
case $what in
  build) ;;
  test) packages+=(clang-format gettext opencv-doc chromium poppler-utils python3) ;;
  bench) packages+=(opencv-doc r-base-core) ;;
  check) packages+=(clang clang-tidy clang-format libclang-rt-dev) ;;
  *) echo "setup.sh: '$what' is not known; use build, test, bench or check" >&2; exit 2 ;;
esac
# Node from elsewhere, with an npm of its own, serves as well and would clash with Debian's.
command -v node >/dev/null || packages+=(nodejs)
command -v npm >/dev/null || packages+=(npm)

missing=()
for package in "${packages[@]}"; do
  dpkg-query -W -f='${db:Status-Status}\n' "$package" 2>/dev/null | grep -qx installed || missing+=("$package")
done
if [ ${#missing[@]} -gt 0 ]; then
  run=()
  if [ "$(id -u)" -ne 0 ]; then
    command -v sudo >/dev/null || { echo "setup.sh: these packages are missing and need root or sudo: ${missing[*]}" >&2; exit 4; }
    run=(sudo)
  fi
  echo "setup.sh: installing ${missing[*]}"
  "${run[@]}" apt-get update -q
  "${run[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends "${missing[@]}"
fi

# From npm: what the review page embeds, and what its tests drive a browser with. Versions are pinned by the lock
# files; no install script runs, and no browser is downloaded.
cd "$(dirname "$0")/.."
folders=(tools/review)
[ "$what" = test ] && folders+=(tests/browser)
for folder in "${folders[@]}"; do
  [ "$folder/node_modules/.package-lock.json" -nt "$folder/package-lock.json" ] && continue
  echo "setup.sh: npm ci in $folder"
  (cd "$folder" && npm ci --ignore-scripts --no-audit --no-fund --loglevel=error)
done
