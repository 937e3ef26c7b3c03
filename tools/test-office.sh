#!/usr/bin/env bash
# The office on both stores: starts a PostgreSQL of its own in a folder of its own, runs tests/office on
# SQLite and on it, stops it. AWLMARK_KILL_WRITES=20000 makes the kill -9 tests long.
set -euo pipefail
cd "$(dirname "$0")/.."
program=${1:-build/release/tests/test_office}
[ $# -gt 0 ] || AWLMARK_CMAKE_ARGS=-DAWLMARK_TESTS=ON tools/build.sh release test_office
bin=$(dirname "$(ls /usr/lib/postgresql/*/bin/initdb | sort -V | tail -1)")
work=$(mktemp -d)
chmod 755 "$work"
# PostgreSQL does not run as root.
as=()
if [ "$(id -u)" = 0 ]; then
  as=(runuser -u postgres --)
  chown postgres "$work"
fi
stop() {
  (cd / && "${as[@]}" "$bin/pg_ctl" -D "$work/data" -m immediate stop >/dev/null 2>&1) || true
  rm -rf "$work"
}
trap stop EXIT
cd /
"${as[@]}" "$bin/initdb" -D "$work/data" -A trust -U awlmark --no-sync >/dev/null
"${as[@]}" "$bin/pg_ctl" -D "$work/data" -w -l "$work/log" -o "-k $work -c listen_addresses=''" start >/dev/null
cd - >/dev/null
AWLMARK_TEST_PG="host=$work user=awlmark dbname=postgres" "$program" --gtest_brief=1
