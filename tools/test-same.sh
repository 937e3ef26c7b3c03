#!/usr/bin/env bash
# Both doors, one answer: native findings against WebAssembly's on every demo job.
set -euo pipefail
cd "$(dirname "$0")/.."
export PATH="$(tools/node.sh):$PATH"
tools/build.sh release awlmark
tools/build.sh wasm awlmark_engine
for job in examples/*.json; do node --no-experimental-fetch tests/page/same-numbers.mjs "$job"; done
