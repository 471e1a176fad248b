#!/usr/bin/env bash
# Compares what evet made of the demo's last night with what was rendered. A step of its own: nothing else
# reads demo_images/truth. Usage: tools/check_demo.sh CATALOGUE RANKING.json
set -euo pipefail
cd "$(dirname "$0")/.."
[ $# -eq 2 ] || { echo "usage: tools/check_demo.sh CATALOGUE RANKING.json (tools/demo.sh makes both)" >&2; exit 2; }
individuals=$(mktemp)
trap 'rm -f "$individuals"' EXIT
build/release/evet individuals "$1" --json >"$individuals"
tools/build.sh release evet-check-demo >build/check-demo-build.log 2>&1 || { cat build/check-demo-build.log >&2; exit 1; }
build/release/tools/evet-check-demo demo_images/truth "$individuals" "$2"
