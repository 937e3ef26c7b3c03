#!/usr/bin/env bash
# libFuzzer with address and undefined-behaviour sanitizers on everything that reads text from
# outside; AWLMARK_FUZZ_SECONDS each (20), starting from the seeds and the examples. By default the job document and
# lengths; AWLMARK_FUZZ="job length reckon" adds the single questions, which build the whole engine.
set -euo pipefail
cd "$(dirname "$0")/.."
targets=${AWLMARK_FUZZ:-job length}
AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=ON tools/build.sh sanitize $(printf 'fuzz_%s ' $targets)
seconds=${AWLMARK_FUZZ_SECONDS:-20}
for target in $targets; do
  corpus=build/fuzz/corpus-$target
  mkdir -p "$corpus"
  for seed in tests/fuzz/seeds/"$target"/*; do [ ! -e "$seed" ] || cp -n "$seed" "$corpus"/; done
  [ "$target" != job ] || cp -n examples/*.json "$corpus"/
  log=build/fuzz/$target.log
  if ! build/sanitize/tests/fuzz/fuzz_"$target" -max_total_time="$seconds" -max_len=65536 -timeout=20 -rss_limit_mb=4096 \
    -artifact_prefix="build/fuzz/$target-" -print_final_stats=1 "$corpus" >"$log" 2>&1; then
    tail -40 "$log"
    exit 1
  fi
  echo "fuzz_$target: $(sed -n 's/stat::number_of_executed_units: *//p' "$log") inputs in $seconds s, no fault"
done
