#!/usr/bin/env bash
# Whether two builds of evet answer alike: every command, with --json, on the demo's catalogue.
# Usage: tests/same_answers.sh OLD_EVET NEW_EVET [FOLDER]    answers stay in FOLDER (else a temporary one)
# Ids, hashes, moments and made-up names differ from run to run: each becomes a number by order of appearance, so
# that what refers to the same thing still has to. After each command that writes, both go on from copies of one
# catalogue, the older program's: sums run in the order of ids, and their last digit with it. Exit code 1 when
# anything differs.
set -euo pipefail
[ $# -ge 2 ] || { sed -n 2,3p "$0"; exit 2; }
old=$(realpath "$1") new=$(realpath "$2")
demo=$(realpath "$(dirname "$0")/../demo_images")
out=${3:-$(mktemp -d)}
mkdir -p "$out"
export EVET_BY=DEMO TZ=UTC EVET_KEYS=$out/keys

plain() {
  perl -pe '
    sub number { my ($what, $text) = @_; return $what . ($seen{$text} //= ++$count{$what}); }
    s/[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/number("id", $&)/ge;
    s/\b[0-9a-f]{64}\b/number("hash", $&)/ge;
    s/\b[0-9A-HJKMNP-TV-Z]{3}-[0-9A-HJKMNP-TV-Z]{4}([0-9A-HJKMNP-TV-Z]{5})?\b/number("name", $&)/ge;
    s/\b20\d\d-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?([+-]\d\d:\d\d|Z)/MOMENT/g;'
}

# Runs one command and keeps what it says, its log lines and its exit code.
answers() {
  local name=$1
  shift
  local code=0
  "$evet" "$@" >"$here/$name.out" 2>"$here/$name.err" || code=$?
  { cat "$here/$name.out"; echo "log:"; cat "$here/$name.err"; echo "exit $code"; } | plain >"$here/$name.txt"
  rm "$here/$name.out" "$here/$name.err"
}

# From here on both programs work on what the older one has written so far.
same_start() {
  [ -e "$out/made/$1" ] || cp -r pond "$out/made/$1"
  rm -rf pond
  cp -r "$out/made/$1" pond
}

# The demo's sheet with every animal's true identity in it, as a tag would tell it: something for a trial to go by.
known_sheet() {
  perl -e 'local $/; open my $truth, "<", $ARGV[0]; my %who = <$truth> =~ /"photo":"([^"]+)".*?"individual":(\d+)/g;
    open my $sheet, "<", $ARGV[1]; $/ = "\n"; print scalar <$sheet>;
    while (<$sheet>) { my @field = split /,/, $_, -1; $field[15] = "A-$who{$field[0]}"; print join ",", @field; }' \
    "$demo/truth/$1.json" "$demo/$1/sheet.csv"
}

all_commands() {
  evet=$1 here=$2
  rm -rf "$here"
  mkdir -p "$here"
  cd "$here"
  answers version --version
  answers help --help
  for command in new intake rank verdict individuals histories estimate report merge audit trial inspect card; do
    answers "$command-help" "$command" --help
    answers "$command-nothing" "$command" --json
  done
  answers new new pond --title "Sallow Pond (rendered)" --json
  answers intake-earlier intake pond "$demo/earlier/sheet.csv" "$demo/earlier/photos" --json
  same_start earlier
  answers rank-earlier rank pond --accept --json
  same_start ranked
  cp -r pond copy
  answers intake-last intake pond "$demo/last_night/sheet.csv" "$demo/last_night/photos" --json
  answers intake-again intake pond "$demo/last_night/sheet.csv" "$demo/last_night/photos" --json
  same_start last
  answers rank-open rank pond --night 2024-05-22 --queue --json
  answers rank-costs rank pond --costs "a wrong join is a hundred times worse than a missed one" --json
  answers rank-accept rank pond --night 2024-05-22 --accept --json
  answers rank-table rank pond
  same_start settled
  answers individuals individuals pond --json
  answers histories histories pond --json
  answers histories-csv histories pond
  answers estimate estimate pond --from 2024-01-01 --to 2024-12-31 --json
  answers estimate-all estimate pond --json
  answers estimate-text estimate pond
  answers merge merge copy pond --json
  answers merge-again merge copy pond --json
  answers audit audit pond --json
  answers trial-nobody trial pond --json
  cp -r pond kept
  answers new-known new known --json
  for part in earlier last_night; do
    known_sheet $part >$part.csv
    answers intake-known-$part intake known $part.csv "$demo/$part/photos" --json
  done
  rm -rf pond
  mv known pond
  same_start known
  answers trial trial pond --resamples 200 --json
  answers trial-text trial pond --resamples 200 --out trial.html
  answers trial-refit trial pond --refit --resamples 200 --json
  rm -rf pond
  mv kept pond
  answers verdict verdict pond 240522-01 cannot-tell 240522-02 --reason "glare" --json
  same_start doubted
  answers report report pond --night 2024-05-22 --out report.html --json
  answers report-earlier report pond --night 2024-05-03 --out earlier.html --json
  for page in report.html earlier.html trial.html; do [ ! -e $page ] || plain <$page >"$page.txt"; done
  photo=$(find "$demo/last_night/photos" -type f | sort | head -n 1)
  answers inspect inspect "$photo" --out inspected --json
  answers card card card.pdf --json
  (cd inspected && sha256sum -- *) >inspected.txt
  sha256sum card.pdf >card.txt
  rm -rf pond copy inspected ./*.html ./*.csv card.pdf
}

rm -rf "$out/made"
mkdir "$out/made"
(all_commands "$old" "$out/old")
(all_commands "$new" "$out/new")
if diff -r "$out/old" "$out/new" >"$out/differences.txt"; then
  echo "$(find "$out/new" -type f | wc -l) answers, all the same"
else
  cat "$out/differences.txt"
  exit 1
fi
