#!/usr/bin/env bash
# Formatting of the C++ sources, that no file has outgrown one subject, clang-tidy and warnings.
set -euo pipefail
cd "$(dirname "$0")/.."
mapfile -t files < <(git ls-files '*.cpp' '*.hpp')
printf '%s\0' "${files[@]}" | xargs -0 -P "$(nproc)" -n 40 clang-format-14 --dry-run --Werror
long=$(wc -l $(git ls-files "engine/*" "apps/*" "bench/*" ":!:*.json" ":!:*.csv") | awk '$2 != "total" && $1 > 450 {print "  " $2 ": " $1 " lines"}')
[ -z "$long" ] || { echo "Files over 450 lines; give each one subject:"; echo "$long"; exit 1; }
echo "${#files[@]} files are formatted"
exec tools/lint.sh
