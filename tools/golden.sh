#!/usr/bin/env bash
# Golden findings of the demo jobs and of tests/golden/jobs:
#   tools/golden.sh           compares with what is kept in tests/golden/findings
#   tools/golden.sh look      shows every difference, by the name of the thing
#   tools/golden.sh accept    keeps the findings as they are now; commit them with the change that moved them
set -euo pipefail
cd "$(dirname "$0")/.."
tools/build.sh release awlmark >/dev/null
exec python3 tests/golden/golden.py build/release/awlmark "$@"
