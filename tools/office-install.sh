#!/usr/bin/env bash
# Builds Awlmark and installs it on this machine as root: /usr/local/bin/awlmark, the page beside it, and the
# office as a systemd service of its own user (docs/install.md).
#   tools/office-install.sh              also starts the office on http://127.0.0.1:8154
#   DESTDIR=/some/root tools/office-install.sh   lays the files out there; no user, no service
set -euo pipefail
cd "$(dirname "$0")/.."
export AWLMARK_UNITY=${AWLMARK_UNITY:-ON}
tools/install.sh run
AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=OFF tools/build.sh release awlmark
AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=OFF tools/build.sh wasm awlmark_engine
tools/page.sh
root=${DESTDIR:-}
install -Dm755 build/release/awlmark "$root/usr/local/bin/awlmark"
# A new page beside the old one, then exchanged: a phone that asks in between gets one or the other.
page="$root/usr/local/share/awlmark/page"
rm -rf "$page.new" "$page.old"
mkdir -p "$page.new"
cp -r web/dist/. "$page.new/"
[ ! -e "$page" ] || mv "$page" "$page.old"
mv "$page.new" "$page"
rm -rf "$page.old"
install -Dm644 apps/office/unit/awlmark-office.service "$root/etc/systemd/system/awlmark-office.service"
[ -z "$root" ] || { echo "Laid out under $root."; exit 0; }
getent passwd awlmark >/dev/null || useradd --system --home /var/lib/awlmark --shell /usr/sbin/nologin awlmark
if [ -d /run/systemd/system ]; then
  systemctl daemon-reload
  systemctl enable awlmark-office
  systemctl restart awlmark-office
  echo "The office runs: http://127.0.0.1:8154"
else
  install -d -o awlmark -g awlmark -m 700 /var/lib/awlmark
  echo "No systemd here. Start it so: su -s /bin/sh awlmark -c 'awlmark serve --dir /usr/local/share/awlmark/page --data /var/lib/awlmark/office.db'"
fi
