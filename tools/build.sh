#!/usr/bin/env bash
# Builds one flavour into build/<flavour>. Usage: tools/build.sh [release|debug|asan|tsan|fuzz|tidy|format] [targets...]
set -euo pipefail
cd "$(dirname "$0")/.."
flavour=${1:-release}
shift || true

sources() { git ls-files -co --exclude-standard '*.cpp' '*.h'; }
options=()
case $flavour in
  release) options+=(-DCMAKE_BUILD_TYPE=Release) ;;
  debug) options+=(-DCMAKE_BUILD_TYPE=Debug) ;;
  asan) options+=(-DCMAKE_BUILD_TYPE=RelWithDebInfo -DEVET_SANITIZE=address,undefined -DEVET_BENCH=OFF) ;;
  tsan) options+=(-DCMAKE_BUILD_TYPE=RelWithDebInfo -DEVET_SANITIZE=thread -DEVET_BENCH=OFF) ;;
  fuzz) options+=(-DCMAKE_BUILD_TYPE=RelWithDebInfo -DCMAKE_C_COMPILER=clang -DCMAKE_CXX_COMPILER=clang++
                  -DEVET_SANITIZE=address,undefined,fuzzer-no-link -DEVET_FUZZ=ON -DEVET_BENCH=OFF) ;;
  tidy) "$0" release >/dev/null
        sources | grep '\.cpp$' | grep -v /fuzz/ | xargs -P "$(nproc)" -n 4 clang-tidy -p build/release --quiet "$@"; exit ;;
  format) sources | xargs clang-format --dry-run -Werror "$@"; exit ;;
  *) echo "build.sh: '$flavour' is not known; use release, debug, asan, tsan, fuzz, tidy or format" >&2; exit 2 ;;
esac

mkdir -p build
log=build/configure-$flavour.log
cmake -S . -B "build/$flavour" -G Ninja "${options[@]}" >"$log" 2>&1 || { cat "$log" >&2; exit 1; }
cmake --build "build/$flavour" ${1:+--target "$@"}
