#!/usr/bin/env bash
# Builds the fuzz programs (clang) and runs each for a while from its seeds, under the address and undefined
# sanitizers. What it finds lies in build/fuzz/found. Usage: tools/fuzz.sh [SECONDS, 60] [NAME..., all]
set -euo pipefail
cd "$(dirname "$0")/.."
seconds=${1:-60}
shift || true
names=("$@")
[ $# -gt 0 ] || names=(sheet exif decode_photo entry pattern_bytes midline merge request_end review_routes
  model_card histories_csv decoder_answer apart_answer)
tools/setup.sh check
tools/build.sh fuzz photo_seeds "${names[@]/%/_fuzz}"
seeds=build/fuzz/seeds found=build/fuzz/found
mkdir -p "$seeds"/{sheet,entry,pattern_bytes,midline,merge,request_end,model_card,histories_csv,decoder_answer,apart_answer} "$found"
cp -r tests/data/fuzz/. "$seeds" # kept from earlier runs; keep what is found there as well
build/fuzz/tests/photo_seeds "$seeds"
cp -r tests/data/review_requests "$seeds/review_routes.new"
rm -rf "$seeds/review_routes" && mv "$seeds/review_routes.new" "$seeds/review_routes"
for sheet in tests/data/night/*.csv tests/cases/intake/*/*.csv; do
  [ -f "$sheet" ] && cp "$sheet" "$seeds/sheet/$(echo "$sheet" | tr / _)"
done
failed=()
for name in "${names[@]}"; do
  # Without seeds an input has to start long: an entry of six bytes says nothing.
  more=()
  [[ " entry merge midline pattern_bytes " = *" $name "* ]] && more=(-len_control=0 -max_len=512)
  echo "== $name, $seconds s"
  "build/fuzz/tests/${name}_fuzz" -max_total_time="$seconds" -rss_limit_mb=4096 -timeout=20 -print_final_stats=1 \
    -artifact_prefix="$found/$name-" "${more[@]}" "$seeds/$name" 2>&1 | grep -vE '^#[0-9]+|NEW_FUNC|DEDUP' | tail -n 40 ||
    failed+=("$name") # the others run all the same
done
[ ${#failed[@]} -eq 0 ] || { echo "fuzz.sh: found something with ${failed[*]}: see build/fuzz/found" >&2; exit 1; }
