#!/usr/bin/env bash
# The tests of every room under the address and undefined-behaviour sanitizers.
set -euo pipefail
cd "$(dirname "$0")/.."
AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=ON tools/build.sh sanitize
ctest --preset sanitize -j2
