#!/usr/bin/env bash
# Works the demo jobs from marks to papers: out/laundry and out/clubhouse.
set -euo pipefail
cd "$(dirname "$0")/.."
awlmark=build/release/awlmark
rm -rf out
"$awlmark" survey examples/laundry-1954.json
"$awlmark" papers examples/laundry-1954.json --out out/laundry
"$awlmark" papers examples/clubhouse-washroom-1972.json --out out/clubhouse
"$awlmark" assess examples/laundry-1954.json --json >out/laundry/findings.json
"$awlmark" assess examples/clubhouse-washroom-1972.json --json >out/clubhouse/findings.json
