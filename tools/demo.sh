#!/usr/bin/env bash
# From nothing to a night's report: installs what is missing, builds evet, makes a catalogue of two rendered
# survey seasons at a pond that does not exist, takes the last night in, ranks it, and writes the report.
# Safe to run again: it begins afresh in build/demo.
set -euo pipefail
cd "$(dirname "$0")/.."
say() { printf '\n== %s\n' "$*"; }

say "Setting up"
tools/setup.sh build
log=build/demo-build.log
mkdir -p build/demo
echo "building build/release/evet (the first time takes some minutes; see $log)"
tools/build.sh release evet >"$log" 2>&1 || { tail -n 40 "$log" >&2; exit 1; }
evet=build/release/evet
out=build/demo
pond=$out/sallow-pond
rm -rf "$pond"
export EVET_BY=DEMO EVET_KEYS=$out/keys # nobody signs with a key of the demo

say "A catalogue from the earlier nights"
$evet new "$pond" --title "Sallow Pond (rendered)"
$evet intake "$pond" demo_images/earlier/sheet.csv demo_images/earlier/photos >"$out/earlier-intake.txt"
head -n 1 "$out/earlier-intake.txt"
$evet rank "$pond" --accept >"$out/earlier-ranking.txt"
tail -n 3 "$out/earlier-ranking.txt" | head -n 2

say "The last night comes in"
night=2024-05-22
$evet intake "$pond" demo_images/last_night/sheet.csv demo_images/last_night/photos

say "Who was it?"
$evet rank "$pond" --night $night --json >"$out/last-night.json"
$evet rank "$pond" --night $night --accept

say "How many are there?"
$evet estimate "$pond" --from 2024-01-01 --to 2024-12-31 2>/dev/null | tee "$out/estimate.txt"

say "The report"
$evet report "$pond" --night $night --out "$out/report-$night.html"
echo "Open $PWD/$out/report-$night.html in a browser; the catalogue is $PWD/$pond."

say "Checking the night against the truth"
tools/check_demo.sh "$pond" "$out/last-night.json"
