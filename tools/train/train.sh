#!/usr/bin/env bash
# Renders training samples on all cores but a few and trains on them as they come.
# Usage: tools/train/train.sh belly|strip OUT [options of train_belly.py or train_strip.py] [--and options...]
#   Each --and begins the options of one more network, trained beside the first on the same samples, on the next GPU
#   in turn; results then go to OUT/1, OUT/2 and so on.
#   EVET_TRAINING_DATA  the rendering program (default: the release build's)
#   EVET_LIBRARIES      folder with the shared libraries it needs, where the host has no OpenCV
#   EVET_GPUS           which GPU each network gets, "0 1 1" (default: one after the other)
#   EVET_FIRST_SHARD    number of the first training shard (default 0); another number, other photographs
#   EVET_SHARDS         folder where one network's shards stay after the training (default: they go as they are read)
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
case ${1:-} in belly | strip) ;; *) sed -n 2,11p "$0" >&2; exit 2 ;; esac
kind=$1 out=${2:?train.sh: where should the results go?}
shift 2
program=${EVET_TRAINING_DATA:-$here/../../build/release/tools/evet-training-data}
[ -x "$program" ] || { echo "train.sh: $program is not there; build it with tools/build.sh release evet-training-data" >&2; exit 2; }
networks=1
for word in "$@"; do [ "$word" != --and ] || networks=$((networks + 1)); done
workers=$(($(nproc) > networks ? $(nproc) - networks : 1))
gpus=$(nvidia-smi --list-gpus 2>/dev/null | wc -l) || gpus=0
keep=()
if [ -n "${EVET_SHARDS:-}" ]; then
  shards=$EVET_SHARDS keep=(--keep-files)
  mkdir -p "$shards"
else
  shards=$(mktemp -d "$([ -w /dev/shm ] && echo /dev/shm || echo /tmp)/shards.XXXXXX")
fi
pids=()
finish() {
  [ ${#pids[@]} -eq 0 ] || kill "${pids[@]}" 2>/dev/null || true
  wait || true
  [ ${#keep[@]} -gt 0 ] || rm -rf "$shards"
}
trap finish EXIT
for ((w = 0; w < workers; ++w)); do
  LD_LIBRARY_PATH=${EVET_LIBRARIES:-}${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH} nice -n 10 "$program" "$shards" \
    --kind "$kind" --tuning 4 --first-tuning "$w" --first $((${EVET_FIRST_SHARD:-0} + w)) --step "$workers" --count 1000000 &
  pids+=($!)
done
if [ "$networks" = 1 ]; then
  python3 -u "$here/train_$kind.py" --shards "$shards" --out "$out" "${keep[@]}" "$@"
  exit
fi
# Each network has read a shard within seconds; after minutes it only takes up memory.
while sleep 10; do find "$shards" -name '*.shard' -mmin +3 -delete; done &
pids+=($!)
read -ra gpu_of <<<"${EVET_GPUS:-}"
trainings=()
for ((n = 1; n <= networks; ++n)); do
  options=()
  while [ $# -gt 0 ] && [ "$1" != --and ]; do options+=("$1"); shift; done
  [ $# -eq 0 ] || shift
  mkdir -p "$out/$n"
  CUDA_VISIBLE_DEVICES=$([ "$gpus" -eq 0 ] || echo "${gpu_of[n - 1]:-$(((n - 1) % gpus))}") \
    python3 -u "$here/train_$kind.py" --shards "$shards" --keep-files --out "$out/$n" "${options[@]}" >"$out/$n/log" 2>&1 &
  trainings+=($!)
done
failed=0
for training in "${trainings[@]}"; do wait "$training" || failed=1; done
tail -n 40 "$out"/*/log
exit "$failed"
