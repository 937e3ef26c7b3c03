#!/usr/bin/env bash
# The rooms' tests, preset wasm.
set -euo pipefail
cd "$(dirname "$0")/.."
AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=ON tools/build.sh wasm
export PATH="$(tools/node.sh):$PATH"
ctest --preset wasm -j2
