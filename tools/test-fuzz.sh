#!/usr/bin/env bash
# libFuzzer with address and undefined-behaviour sanitizers on everything that reads text from
# outside; AWLMARK_FUZZ_SECONDS each (20), starting from the examples. A crash leaves its input here.
set -euo pipefail
cd "$(dirname "$0")/.."
AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=OFF tools/build.sh fuzz fuzz_job fuzz_reckon fuzz_length
seconds=${AWLMARK_FUZZ_SECONDS:-20}
for target in job reckon length; do
  corpus=build/fuzz/corpus-$target
  mkdir -p "$corpus"
  cp -n tests/fuzz/seeds/"$target"/* "$corpus"/ 2>/dev/null || true
  [ "$target" = job ] && cp -n examples/*.json "$corpus"/
  build/fuzz/fuzz_$target -max_total_time="$seconds" -max_len=65536 -timeout=10 -rss_limit_mb=4096 -verbosity=0 -print_final_stats=1 "$corpus" 2>&1 | grep -E "stat::number_of_executed_units|ERROR|SUMMARY" || true
  [ "${PIPESTATUS[0]}" -eq 0 ]
done
