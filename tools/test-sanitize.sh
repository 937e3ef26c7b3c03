#!/usr/bin/env bash
# Address and undefined-behaviour sanitizers on the rooms that read text from outside and on the kernels; all rooms with
# AWLMARK_SANITIZE_ROOMS="base tables job survey hazards cutback floor takeoff work price papers reckon".
set -euo pipefail
cd "$(dirname "$0")/.."
read -ra rooms <<<"${AWLMARK_SANITIZE_ROOMS:-base tables job survey cutback floor}"
AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=ON tools/build.sh sanitize "${rooms[@]/#/test_}"
for room in "${rooms[@]}"; do build/sanitize/tests/test_"$room" --gtest_brief=1; done
