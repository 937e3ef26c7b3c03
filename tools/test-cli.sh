#!/usr/bin/env bash
# The command line as its user calls it.
set -euo pipefail
cd "$(dirname "$0")/.."
tools/build.sh release awlmark
exec tests/cli/run.sh build/release/awlmark
