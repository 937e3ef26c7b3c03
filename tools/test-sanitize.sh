#!/usr/bin/env bash
# The rooms' tests, preset sanitize.
set -euo pipefail
cd "$(dirname "$0")/.."
AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=ON tools/build.sh sanitize
export PATH="$(tools/node.sh):$PATH"
ctest --preset sanitize -j2
