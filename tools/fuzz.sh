#!/bin/bash
# tools/fuzz.sh SECONDS [TARGET...]   builds the targets of fuzz/ with clang and runs each, or those that are named, for
#                                     so many seconds, from the kept inputs and what earlier runs have found
# tools/fuzz.sh merge [TARGET...]     adds to fuzz/corpus what earlier runs have found and reaches something new
#
# What is found lies in build-fuzz/found/TARGET; what ends a target in build-fuzz/ended/TARGET-..., and the status is 1.
set -euo pipefail
cd "$(dirname "$0")/.."
what=${1:?"seconds, or merge"}
shift
names=("$@")
if [[ ${#names[@]} == 0 ]]; then
  for file in fuzz/targets/*.cpp; do names+=("$(basename "$file" .cpp)"); done
fi

cmake --preset fuzz > /dev/null
cmake --build build-fuzz --target "${names[@]/#/fuzz_}"

bytes_max=65536   # of one input
kept_max=4096     # of one that is kept
mkdir -p build-fuzz/ended
status=0
for name in "${names[@]}"; do
  found=build-fuzz/found/$name
  mkdir -p "$found"
  if [[ $what == merge ]]; then
    "build-fuzz/bin/fuzz_$name" -merge=1 -max_len=$kept_max "fuzz/corpus/$name" "$found" 2>&1 | grep -E "MERGE-OUTER: .* new" || true
    continue
  fi
  log=build-fuzz/ended/$name.log
  "build-fuzz/bin/fuzz_$name" "$found" "fuzz/corpus/$name" -max_total_time="$what" -max_len=$bytes_max -timeout=20 \
    -rss_limit_mb=2048 -artifact_prefix="build-fuzz/ended/$name-" -print_final_stats=1 > "$log" 2>&1 || status=1
  executions=$(grep -oP 'number_of_executed_units: \K\d+' "$log" || echo 0)
  trouble=$(grep -m1 -E "SUMMARY|: Assertion|what must hold" "$log" || true)
  echo "$name: $executions inputs in $what s ${trouble:-, nothing found}"
done
exit $status
