#!/bin/bash
# quietly.sh NAME COMMAND...: the output goes to build/logs/NAME.log and is shown only when the command fails.
set -uo pipefail
cd "$(dirname "$0")/.."
log=build/logs/$1.log
shift
mkdir -p build/logs
"$@" >"$log" 2>&1 </dev/null && exit
status=$?
cat "$log" >&2
exit "$status"
