#!/usr/bin/env bash
# Lays the header-only libraries of the engine into .deps/include, so that the native and the
# WebAssembly compiler see the same ones and nothing else of /usr/include. Boost 1.81 is unpacked
# rather than installed: Debian's other packages may need 1.74, and the two do not sit side by side.
set -euo pipefail
cd "$(dirname "$0")/.."
inc=.deps/include
[ -e "$inc/boost/describe.hpp" ] && [ -e "$inc/Eigen" ] && [ -e "$inc/nlohmann" ] && [ -e "$inc/CLI" ] && exit 0
rm -rf .deps && mkdir -p "$inc"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
chmod 755 "$work"
boost=libboost1.81-dev  # Debian 12's; a release without it has a newer one (Ubuntu 24.04: 1.83)
[ -n "$(apt-cache search --names-only "^$boost\$" 2>/dev/null)" ] || boost=libboost1.83-dev
(cd "$work" && apt-get download -qq "$boost" >/dev/null 2>&1) || { echo "tools/deps.sh: apt-get could not fetch $boost" >&2; exit 1; }
dpkg -x "$work/$boost"_*.deb "$work/boost"
mv "$work/boost/usr/include/boost" "$inc/boost"
ln -s /usr/include/eigen3/Eigen "$inc/Eigen"
ln -s /usr/include/nlohmann "$inc/nlohmann"
ln -s /usr/include/CLI "$inc/CLI"
