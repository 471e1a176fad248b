#!/usr/bin/env bash
# Builds one flavour into build/<flavour>: build.sh [release|debug|asan|tsan|fuzz] [TARGET...]; what sets one apart
# stands in tools/flavours. Or checks sources: build.sh form (layout, white space, and comments that end in a line of
# one word), build.sh format [-i] (layout alone; -i mends it), build.sh tidy [OPTION...] (clang-tidy over every
# source), build.sh tidy-since COMMIT (over those that changed).
set -euo pipefail
cd "$(dirname "$0")/.."
flavour=${1:-release}
shift || true

sources() { git ls-files -co --exclude-standard '*.cpp' '*.h'; }
tidy() { grep '\.cpp$' | grep -v /fuzz/ | xargs -r -P "$(nproc)" -n 4 clang-tidy -p build/release --quiet "$@"; }
# Comments whose last line holds one word: the eye stumbles over it; wrap them anew.
orphans() {
  sources | xargs awk '
    FNR == 1 { if (held) print held; held = ""; before = "" }
    { comment = /^ *\/\/ [^ ]/
      if (held && !comment) print held
      held = comment && before && NF == 2 ? FILENAME ":" FNR ": " $0 : ""
      before = comment && length($0) > 60 }
    END { if (held) print held }'
}
case $flavour in
  release | debug | asan | tsan | fuzz) ;;
  format)
    how=(--dry-run -Werror)
    [ "${1:-}" != -i ] || how=(-i)
    sources | xargs clang-format "${how[@]}"
    exit ;;
  form)
    "$0" format
    left=$(orphans)
    [ -z "$left" ] || { echo "$left"; echo "build.sh: these comments end in a line of one word" >&2; exit 1; }
    git diff --check "$(git hash-object -t tree /dev/null)" -- && echo "layout and white space are in order"
    exit ;;
  tidy)
    "$0" release >/dev/null
    sources | tidy "$@"
    exit ;;
  tidy-since)
    "$0" release >/dev/null
    git diff --name-only --diff-filter=d "${1:?name the commit to compare with}" -- '*.cpp' | tidy
    exit ;;
  *) echo "build.sh: '$flavour' is not known; use release, debug, asan, tsan, fuzz, form, format, tidy or tidy-since" >&2; exit 2 ;;
esac

mkdir -p build
log=build/configure-$flavour.log
cmake -C "tools/flavours/$flavour.cmake" -S . -B "build/$flavour" -G Ninja >"$log" 2>&1 || { cat "$log" >&2; exit 1; }
cmake --build "build/$flavour" ${1:+--target "$@"}
