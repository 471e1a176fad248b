#!/usr/bin/env bash
# Fits everything that learns from straightened bellies, one after the other, once the belly network has changed:
# strip errors, spots and embedding, the pair network, the matching. Needs no compiler.
# Usage: tools/train/after_belly.sh PROGRAMS OUT
#   PROGRAMS  folder of evet-fit-strip-errors, evet-training-data and evet-fit-matching, all of one build (bundle.sh)
#   OUT       strip_errors.json, spots.onnx, embedding.onnx, pairs.onnx, matching.json, and a folder for each training
#   What lies in OUT already is not made again: an interrupted run goes on.
#   EVET_WEIGHTS     the weights that they were built with, if not those of this tree (put_weights.py --room)
#   EVET_LIBRARIES   folder with the shared libraries that the programs need
#   EVET_STRIP_STEPS, EVET_PAIR_STEPS, EVET_ANIMALS   steps of the trainings, animals of each world in the fits
#   EVET_START       strips that their training waits for (default 8000: fewer animals are soon known by heart)
#   EVET_FIRST_SHARD number of the first strip shard; another number, other animals
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
programs=${1:?after_belly.sh: where are the programs?} out=${2:?after_belly.sh: where should the results go?}
weights=${EVET_WEIGHTS:-$here/../../models/weights}
strip_steps=${EVET_STRIP_STEPS:-4000} pair_steps=${EVET_PAIR_STEPS:-2500} animals=${EVET_ANIMALS:-60} start=${EVET_START:-8000}
mkdir -p "$out"
out=$(cd "$out" && pwd)
began=$SECONDS
ended() { echo "after_belly.sh: $1 after $((SECONDS - began)) s" >&2; }
with_libraries() { LD_LIBRARY_PATH=${EVET_LIBRARIES:-}${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH} "$@"; }
# A program with what was fitted up to now in the place of what it was built with.
renewed() {
  local changes=()
  for file in strip_errors.json spots.onnx embedding.onnx pairs.onnx; do
    [ ! -e "$out/$file" ] || changes+=("$weights/$file=$out/$file")
  done
  python3 "$here/put_weights.py" "$programs/$1" "$out/$1" "${changes[@]}"
}

if [ ! -e "$out/strip_errors.json" ]; then
  with_libraries "$programs/evet-fit-strip-errors" --world 3 --world-kind both --hardest "$animals" --middle $((animals / 2)) \
    --threads "$(nproc)" --out "$out/strip_errors.part"
  mv "$out/strip_errors.part" "$out/strip_errors.json"
  ended "strip errors"
fi

if [ ! -e "$out/embedding.onnx" ]; then
  EVET_TRAINING_DATA=$programs/evet-training-data EVET_SHARDS=$out/strips "$here/train.sh" strip "$out/strip_run" \
    --steps "$strip_steps" --start "$start" --rate 1e-3 --spots-from "$weights/spots.onnx" --embedding-from "$weights/embedding.onnx"
  cp "$out/strip_run/spots.onnx" "$out/spots.onnx"
  cp "$out/strip_run/embedding.onnx" "$out/embedding.onnx"
  ended "spots and embedding"
fi

if [ ! -e "$out/pairs.onnx" ]; then
  renewed evet-training-data
  workers=$((($(nproc) + 1) / 2)) # the more animals in one file, the more alike are the likest two
  python3 "$here/spot_maps.py" "$out/strips" "$out/strip_run/spots.pt" "$out/maps" "$workers"
  pids=()
  for ((w = 0; w < workers; ++w)); do
    with_libraries "$out/evet-training-data" "$out/pairs" --kind pair --maps "$out/maps" --first "$w" --step "$workers" &
    pids+=($!)
  done
  for pid in "${pids[@]}"; do wait "$pid"; done
  ended "pairs compared"
  python3 "$here/train_pair.py" --shards "$out/pairs" --out "$out/pair_run" --steps "$pair_steps" --start 2000 --rate 1e-3 \
    --from-onnx "$weights/pairs.onnx"
  cp "$out/pair_run/pairs.onnx" "$out/pairs.onnx"
  ended "the pair network"
fi

if [ ! -e "$out/matching.json" ]; then
  renewed evet-fit-matching
  with_libraries "$out/evet-fit-matching" --fit-worlds 1,2 --tune-worlds 101 --world-kind both --individuals "$animals" \
    --captures 3 --difficulties middle,hardest --skins 1000 --threads "$(nproc)" --out "$out/matching.part" | tee "$out/matching.log"
  mv "$out/matching.part" "$out/matching.json"
  ended "the matching"
fi
