#!/usr/bin/env bash
# Configures and builds one preset of CMakePresets.json: tools/build.sh release [targets...]
set -euo pipefail
cd "$(dirname "$0")/.."
preset=$1
shift
export PATH="$(tools/node.sh):$PATH"
# Objects are shared between clones of the same sources, wherever they lie.
export CCACHE_BASEDIR="$PWD" CCACHE_NOHASHDIR=1
command -v ccache >/dev/null && export EM_COMPILER_WRAPPER=ccache  # emscripten's own way to a compiler cache
args=(${AWLMARK_CMAKE_ARGS:-})
# Joined sources or one by one: decided when the folder is new, kept afterwards (CONTRIBUTING.md).
[ -f "build/$preset/CMakeCache.txt" ] || args+=("-DAWLMARK_UNITY=${AWLMARK_UNITY:-OFF}")
mkdir -p build
cmake --preset "$preset" ${args[@]+"${args[@]}"} >"build/$preset.cmake.log" 2>&1 || { cat "build/$preset.cmake.log"; exit 1; }
if [ $# -gt 0 ]; then cmake --build --preset "$preset" --target "$@"; else cmake --build --preset "$preset"; fi
