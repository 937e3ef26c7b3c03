#!/usr/bin/env bash
# The page: types, lint, units, size budget, then in real Chromium at 390x844 and 1280x800.
set -euo pipefail
cd "$(dirname "$0")/.."
export PATH="$(tools/node.sh):$PATH"
tools/build.sh wasm awlmark_engine
tools/build.sh release awlmark  # the office that the page's tests talk to, and moist air
tools/page.sh
# Moist air against an npm package, which is here now.
node tests/outside/make/psychrolib.mjs build/release/awlmark
cd web
npm run --silent lint
npm test --silent
npm run --silent size
npm run --silent e2e
