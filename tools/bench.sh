#!/usr/bin/env bash
# Measures again and writes tests/bench/tables/NAME.md, with the machine and the date.
# Usage: tools/bench.sh accuracy|belly|match|coverage|models_speed|photo|all [the program's own arguments]
set -euo pipefail
cd "$(dirname "$0")/.."
names=(accuracy belly match coverage models_speed photo)
name=${1:-}
shift || true
if [ "$name" = all ]; then
  for each in "${names[@]}"; do
    if [ -f "tests/bench/${each}_bench.cpp" ]; then "$0" "$each"; else echo "bench.sh: there is no $each benchmark yet" >&2; fi
  done
  exit
fi
[[ " ${names[*]} " == *" $name "* ]] || { echo "bench.sh: '$name' is not known; use one of ${names[*]} or all" >&2; exit 2; }
[ -f "tests/bench/${name}_bench.cpp" ] || { echo "bench.sh: there is no $name benchmark yet (tests/bench/${name}_bench.cpp)" >&2; exit 2; }

tools/setup.sh bench
log=build/bench-build.log
mkdir -p build tests/bench/tables
targets=("${name}_bench")
[ "$name" = photo ] && targets+=(evet)
tools/build.sh release "${targets[@]}" >"$log" 2>&1 || { tail -n 40 "$log" >&2; exit 1; }
table=tests/bench/tables/$name.md
part=$(mktemp)
trap 'rm -f "$part"' EXIT
{
  echo "# ${name//_/ }"
  echo
  echo "Measured $(date -u +%F) by \`tools/bench.sh $name${*:+ $*}\`, commit $(git rev-parse --short HEAD 2>/dev/null || echo unknown), on $(uname -m), $(nproc) processors ($(sed -n 's/^model name[^:]*: //p' /proc/cpuinfo | head -n 1))."
  echo
  "build/release/tests/${name}_bench" "$@"
} | tee "$part"
# Only a whole run replaces the table.
mv "$part" "$table"
trap - EXIT
chmod 644 "$table"
echo "written to $table" >&2
