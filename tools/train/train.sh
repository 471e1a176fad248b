#!/usr/bin/env bash
# Renders training samples on all cores but one and trains on them as they come.
# Usage: tools/train/train.sh belly|strip OUT [options of train_belly.py or train_strip.py]
#   EVET_TRAINING_DATA  the rendering program (default: the release build's)
#   EVET_LIBRARIES      folder with the shared libraries it needs, where the host has no OpenCV
#   EVET_FIRST_SHARD    number of the first training shard (default 0); another number, other photographs
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
case ${1:-} in belly | strip) ;; *) sed -n 2,7p "$0" >&2; exit 2 ;; esac
kind=$1 out=${2:?train.sh: where should the results go?}
shift 2
program=${EVET_TRAINING_DATA:-$here/../../build/release/tools/evet-training-data}
[ -x "$program" ] || { echo "train.sh: $program is not there; build it with tools/build.sh release evet-training-data" >&2; exit 2; }
workers=$(($(nproc) > 1 ? $(nproc) - 1 : 1))
shards=$(mktemp -d "$([ -w /dev/shm ] && echo /dev/shm || echo /tmp)/shards.XXXXXX")
pids=()
finish() {
  [ ${#pids[@]} -eq 0 ] || kill "${pids[@]}" 2>/dev/null || true
  wait || true
  rm -rf "$shards"
}
trap finish EXIT
for ((w = 0; w < workers; ++w)); do
  LD_LIBRARY_PATH=${EVET_LIBRARIES:-}${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH} nice -n 10 "$program" "$shards" \
    --kind "$kind" --tuning 4 --first-tuning "$w" --first $((${EVET_FIRST_SHARD:-0} + w)) --step "$workers" --count 1000000 &
  pids+=($!)
done
python3 -u "$here/train_$kind.py" --shards "$shards" --out "$out" "$@"
