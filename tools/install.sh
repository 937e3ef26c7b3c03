#!/usr/bin/env bash
# Installs what is missing from Debian's packages: `tools/install.sh run` for ./run, `... test` for
# ./test as well. Needs root only when something is missing.
set -euo pipefail
cd "$(dirname "$0")/.."
run=(build-essential python3 cmake ninja-build ccache pkg-config ca-certificates curl libeigen3-dev nlohmann-json3-dev libcli11-dev
  libcpp-httplib-dev libsqlite3-dev libpq-dev libssl-dev zlib1g-dev libbrotli-dev emscripten node-acorn)
test=(googletest clang-14 clang-format-14 clang-tidy-14 libclang-rt-14-dev chromium poppler-utils fonts-dejavu-core glpk-utils python3-jsonschema git postgresql)
want=("${run[@]}")
[ "${1:-run}" = test ] && want+=("${test[@]}")

missing=()
for package in "${want[@]}"; do
  [ "$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing+=("$package")
done
# Node comes from Debian only where the machine has none; tools/node.sh then brings a newer one.
command -v node >/dev/null && command -v npm >/dev/null || missing+=(nodejs npm)
if [ ${#missing[@]} -gt 0 ]; then
  echo "Installing: ${missing[*]}"
  export DEBIAN_FRONTEND=noninteractive
  apt-get update -qq
  apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
fi
tools/deps.sh
tools/node.sh >/dev/null
