#!/usr/bin/env bash
# Installs a build into a folder of its own, and builds and runs programs of somebody else against it.
# Usage: check.sh BUILD_FOLDER
set -euo pipefail
here=$(dirname "$(realpath "$0")")
prefix=$(mktemp -d)
trap 'rm -rf "$prefix"' EXIT
cmake --install "$1" --prefix "$prefix" >"$prefix/install.log" || { cat "$prefix/install.log"; exit 1; }
cmake -S "$here" -B "$prefix/build" -G Ninja -DCMAKE_PREFIX_PATH="$prefix" >/dev/null
cmake --build "$prefix/build"
[ "$("$prefix/build/count_newts")" = 965.7 ]
# The hash of "abc" is the first example of FIPS 180-4's test vectors.
[ "$("$prefix/build/name_photo")" = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad
not_found" ]
"$prefix/bin/evet" --version
