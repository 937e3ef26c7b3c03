#!/usr/bin/env bash
# Configures and builds one preset of CMakePresets.json: tools/build.sh release [targets...]
set -euo pipefail
cd "$(dirname "$0")/.."
preset=$1
shift
export PATH="$(tools/node.sh):$PATH"
cmake --preset "$preset" ${AWLMARK_CMAKE_ARGS:-} >"/tmp/awlmark-cmake-$preset.log" 2>&1 || { cat "/tmp/awlmark-cmake-$preset.log"; exit 1; }
if [ $# -gt 0 ]; then cmake --build --preset "$preset" --target "$@"; else cmake --build --preset "$preset"; fi
