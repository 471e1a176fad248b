#!/usr/bin/env bash
# Gathers programs of the release build and the shared libraries they need, for a host without OpenCV.
# Usage: bundle.sh FOLDER [PROGRAM...]   programs as paths in build/release (default: tools/evet-training-data)
# The C and C++ run-time libraries are left out: the host's own, if newer, must be used with its own loader.
set -euo pipefail
cd "$(dirname "$0")/../.."
folder=${1:?usage: tools/train/bundle.sh FOLDER [PROGRAM...]}
shift
[ $# -gt 0 ] || set -- tools/evet-training-data
mkdir -p "$folder/lib"
for name in "$@"; do
  program=build/release/$name
  [ -x "$program" ] || { echo "bundle.sh: $program is not there; build it with tools/build.sh release $(basename "$name")" >&2; exit 2; }
  strip -o "$folder/$(basename "$name")" "$program"
  ldd "$program" | awk '$3 ~ /^\// { print $3 }' | grep -Ev '/(libc|libm|libdl|libpthread|librt|libstdc\+\+|libgcc_s)\.so' |
    while read -r library; do
      [ -e "$folder/lib/$(basename "$library")" ] || strip -o "$folder/lib/$(basename "$library")" "$library" 2>/dev/null ||
        cp -L "$library" "$folder/lib/"
    done
done
du -sh "$folder"
