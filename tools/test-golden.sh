#!/usr/bin/env bash
# The findings of the demo jobs and the small jobs against those kept.
exec "$(dirname "$0")/golden.sh"
