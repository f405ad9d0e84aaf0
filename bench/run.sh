#!/bin/sh
# Measures how fast hours are counted and writes docs/performance.md.
#   run.sh HOURS_BENCH [MILLIONS]     the program that bench/CMakeLists.txt builds; millions of observations, default 10
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
program=$1
millions=${2:-10}
results=$(mktemp -d)
trap 'rm -rf "$results"' EXIT
echo "counting $millions million observations ..."
"$program" "$root/tests/recordings/day" "$millions" >"$results/hours.json"
echo "the same with pandas ..."
/usr/bin/python3 "$root/bench/hours/hours_pandas.py" "$root/tests/recordings/day" "$millions" >"$results/pandas.json"
/usr/bin/python3 "$root/bench/write_performance.py" "$results" >"$root/docs/performance.md"
cat "$root/docs/performance.md"
