#!/usr/bin/env bash
# The rooms' tests, preset release.
set -euo pipefail
cd "$(dirname "$0")/.."
AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=ON tools/build.sh release
export PATH="$(tools/node.sh):$PATH"
ctest --preset release -j2
