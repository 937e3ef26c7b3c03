#!/usr/bin/env bash
# Builds the page into web/dist: npm packages by the lock file, then types from the engine's schema and Vite.
# Needs the WebAssembly engine (tools/build.sh wasm awlmark_engine).
set -euo pipefail
cd "$(dirname "$0")/../web"
export PATH="$(../tools/node.sh):$PATH"
stamp=node_modules/.awlmark-lock
if ! cmp -s package-lock.json "$stamp"; then
  npm ci --no-audit --no-fund
  cp package-lock.json "$stamp"
fi
npm run --silent build
