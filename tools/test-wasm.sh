#!/usr/bin/env bash
# The rooms' tests, preset wasm.
set -euo pipefail
cd "$(dirname "$0")/.."
AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=ON tools/build.sh wasm
export PATH="$(tools/node.sh):$PATH"
# assess works whole floors, some 25 times slower here: ./test same holds both doors to the same figures.
ctest --preset wasm -j2 --timeout 1200 -E '^assess$'
