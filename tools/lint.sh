#!/usr/bin/env bash
# clang's warnings and the checks of .clang-tidy on every C++ source, all as errors: tools/lint.sh [ROOM...]
# Reads the sources joined by room (cmake/units.py), since most of the time is the same headers again.
set -euo pipefail
cd "$(dirname "$0")/.."
out=build/lint
rm -rf "$out" && mkdir -p "$out"
wanted=" $* "
units=()
for folder in engine/* apps/* bench/simulator tests/*; do
  name=${folder##*/}
  [ $# -eq 0 ] || [[ "$wanted" == *" $name "* ]] || continue
  # Emscripten's entry needs its header, which clang-tidy's target does not have.
  mapfile -t files < <(git ls-files "$folder/*.cpp" | grep -v "^apps/wasm/exports\.cpp$" || true)
  # Each of these is the entry of a program of its own, under the same name.
  joined=60
  case $folder in apps/wasm | tests/fuzz) joined=1 ;; esac
  [ ${#files[@]} -eq 0 ] || mapfile -t -O ${#units[@]} units < <(python3 cmake/units.py . "$out/${folder//\//_}" "$joined" "${files[@]}")
done
flags=(-std=c++20 -DNDEBUG -DEIGEN_DONT_VECTORIZE -DEIGEN_MPL2_ONLY -Wall -Wextra -Wnon-virtual-dtor -Wno-missing-field-initializers
  -DAWLMARK_VERSION='"0"' -DAWLMARK_SOURCE_DIR='"."' -DAWLMARK_WEB_DIR='"."'
  -isystem .deps/include -isystem /usr/src/googletest/googletest/include -Iengine -Itests -Ibench -Iapps)
read -ra http <<<"$(pkg-config --cflags cpp-httplib libpq sqlite3 | sed "s/-I/-isystem /g")"
printf '%s\0' "${units[@]}" | xargs -0 -P "${AWLMARK_LINT_JOBS:-$(nproc)}" -I UNIT bash -c \
  'clang-tidy-14 --quiet UNIT -- "$@" 2>&1 | grep -vE "^[0-9]+ (warnings?|errors?)( and [0-9]+ errors?)? generated|^Suppressed|^Use -(header|system)" || true; exit "${PIPESTATUS[0]}"' \
  lint "${flags[@]}" ${http[@]+"${http[@]}"} || { echo "tools/lint.sh: mend what stands above"; exit 1; }
echo "${#units[@]} joined sources pass clang-tidy and clang's warnings"
