#!/usr/bin/env bash
# Installs what is missing, builds, runs every test. The last line is the test runner's own summary.
set -euo pipefail
cd "$(dirname "$0")/.."
tools/setup.sh test
tools/build.sh release
ctest --test-dir build/release --output-on-failure -j "$(nproc)" "$@"
