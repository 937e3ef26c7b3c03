#!/usr/bin/env bash
# Breaks the lines of tools/mutants.json one at a time in a copy of the tree and says which tests notice; run by hand.
#   tools/mutate.sh [PATTERN] [--minutes N] [--table]    PATTERN: only files that match; --table writes docs/mutants.md
#   tools/mutate.sh --check                              only says which lines are gone from the sources
set -euo pipefail
cd "$(dirname "$0")/.."
tools/install.sh test
exec python3 tools/mutate.py "$@"
