#!/usr/bin/env bash
# The opening study and the calibration: builds the benches, runs them, writes the tables and pictures
# of docs/study.md. About ten minutes of processor time at full size.
#   tools/study.sh [LEAKS [JOBS]]      LEAKS 40 by default (the calibration takes two and a half times as
#                                      many); JOBS processes side by side, 2 by default
set -euo pipefail
cd "$(dirname "$0")/.."
leaks=${1:-40}
openings_seed=12000 # docs/study.md says which seeds were looked at for what
calibration_seed=12100
jobs=${2:-2}
build=${AWLMARK_STUDY_BUILD:-build/study}
out=$build/study
[ -f "$build/build.ninja" ] || cmake -S . -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release -DAWLMARK_BENCH=ON -DAWLMARK_TESTS=OFF >/dev/null
ninja -C "$build" bench_openings bench_calibration >/dev/null
mkdir -p "$out" docs/pictures

per_job=$(((leaks + jobs - 1) / jobs))
pids=()
for ((k = 0; k * per_job < leaks; ++k)); do
  count=$((leaks - k * per_job < per_job ? leaks - k * per_job : per_job))
  first=$((openings_seed + k * per_job))
  ("$build/bench/bench_openings" --first "$first" --leaks "$count" &&
    "$build/bench/bench_openings" --first "$first" --leaks "$count" --strategy guided --no-stop | tail -n +2) >"$out/openings.$k.csv" &
  pids+=($!)
done
for pid in "${pids[@]}"; do wait "$pid"; done
head -1 "$out/openings.0.csv" >"$out/openings.csv"
for ((k = 0; k * per_job < leaks; ++k)); do tail -n +2 "$out/openings.$k.csv" >>"$out/openings.csv"; done

"$build/bench/bench_calibration" --first "$calibration_seed" --leaks $((leaks * 5 / 2)) >"$out/calibration.json"
/usr/bin/python3 bench/study_plot.py "$out/openings.csv" "$out/calibration.json"
echo "docs/study.md and docs/pictures/ written; raw rows in $out/"
