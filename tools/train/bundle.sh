#!/usr/bin/env bash
# Gathers evet-training-data and the shared libraries it needs, for a host without OpenCV. Usage: bundle.sh FOLDER
# The C and C++ run-time libraries are left out: the host's own, if newer, must be used with its own loader.
set -euo pipefail
cd "$(dirname "$0")/../.."
folder=${1:?usage: tools/train/bundle.sh FOLDER}
program=build/release/tools/evet-training-data
[ -x "$program" ] || { echo "bundle.sh: $program is not there; build it with tools/build.sh release evet-training-data" >&2; exit 2; }
mkdir -p "$folder/lib"
strip -o "$folder/evet-training-data" "$program"
ldd "$program" | awk '$3 ~ /^\// { print $3 }' | grep -Ev '/(libc|libm|libdl|libpthread|librt|libstdc\+\+|libgcc_s)\.so' |
  while read -r library; do
    strip -o "$folder/lib/$(basename "$library")" "$library" 2>/dev/null || cp -L "$library" "$folder/lib/"
  done
du -sh "$folder"
