#!/usr/bin/env bash
# Rooms' tests under the address and undefined-behaviour sanitizers. By default the rooms at the bottom of the house,
# which everything that comes from outside passes first; AWLMARK_SANITIZE_ROOMS=all for every room (15 min on two cores).
set -euo pipefail
cd "$(dirname "$0")/.."
rooms=${AWLMARK_SANITIZE_ROOMS:-base tables job measure money goods plan hazards mechanics drying}
if [ "$rooms" = all ]; then
  AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=ON tools/build.sh sanitize
  exec ctest --preset sanitize -j2
fi
AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=ON tools/build.sh sanitize $(printf 'test_%s ' $rooms)
ctest --preset sanitize -j2 -R "^(${rooms// /|})\$"
