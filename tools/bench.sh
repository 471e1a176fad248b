#!/usr/bin/env bash
# Measures again and writes tests/bench/tables/NAME.md, with the machine and the date.
# What was written by hand beside it, tests/bench/tables/NAME.notes.md, goes below the figures.
# Usage: tools/bench.sh NAME [the program's own arguments], where tests/bench/NAME_bench.cpp is the program; or all.
# NAME_bench.mjs is one that works in a browser.
set -euo pipefail
cd "$(dirname "$0")/.."
known() { for file in tests/bench/*_bench.{cpp,mjs}; do basename "${file%.*}" _bench; done; }
name=${1:-}
shift || true
if [ "$name" = all ]; then
  for each in $(known); do "$0" "$each"; done
  exit
fi
[ -e "tests/bench/${name}_bench.cpp" ] || [ -e "tests/bench/${name}_bench.mjs" ] || { echo "bench.sh: '$name' is not known; use all or one of: $(known | paste -sd ' ')" >&2; exit 2; }

tools/setup.sh bench
mkdir -p build tests/bench/tables
log=build/bench-build.log
targets=("${name}_bench")
program=("build/release/tests/${name}_bench")
if [ -e "tests/bench/${name}_bench.mjs" ]; then
  targets=(evet draw_pond draw_evening)
  program=(env "EVET_PROGRAM=$PWD/build/release/evet" "EVET_DRAW_POND=$PWD/build/release/tests/draw_pond"
    "EVET_DRAW_EVENING=$PWD/build/release/tests/draw_evening" "EVET_BENCH_FOLDER=$PWD/build/bench" node "tests/bench/${name}_bench.mjs")
fi
[ "$name" = photo ] && targets+=(evet)
echo "bench.sh: building ${targets[*]} (see $log)" >&2
tools/build.sh release "${targets[@]}" >"$log" 2>&1 || { tail -n 40 "$log" >&2; exit 1; }
measured=$(mktemp)
trap 'rm -f "$measured"' EXIT
"${program[@]}" "$@" | tee "$measured" >&2
processor=$(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -n 1)
# Photos unlike all that was fitted on have a table of their own.
case " $* " in *" --foreign "*) title=${name}_foreign ;; *) title=$name ;; esac
table=tests/bench/tables/$title.md
notes=tests/bench/tables/$title.notes.md
{
  if ! head -n 1 "$measured" | grep -q '^# '; then # a program may bring a heading of its own
    echo "# ${title//_/ }"
    echo
  fi
  if grep -q '^|' "$measured"; then cat "$measured"; else sed '1i ```text' "$measured" && echo '```'; fi
  echo
  [ ! -e "$notes" ] || { cat "$notes"; echo; }
  echo "Measured $(date -u +%F) by \`tools/bench.sh $name${*:+ $*}\` at commit $(git rev-parse --short HEAD 2>/dev/null || echo unknown), $(uname -m), $(nproc) processors${processor:+ ($processor)}."
} >"$table" # only now: a run that fails leaves the old table alone
echo "bench.sh: written to $table" >&2
