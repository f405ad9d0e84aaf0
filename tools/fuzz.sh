#!/bin/bash
# tools/fuzz.sh SECONDS [TARGET...]   builds the targets of fuzz/ with clang and runs each, or those that are named, for
#                                     so many seconds, from the kept inputs and what earlier runs have found
# tools/fuzz.sh merge [TARGET...]     adds to fuzz/corpus the few of what earlier runs have found that reach new code
#
# Both leave the computer to others first. What is found lies in build-fuzz/found/TARGET; what ends a target, and what
# each run said, in build-fuzz/ended/TARGET...; then the status is 1.
set -euo pipefail
cd "$(dirname "$0")/.."
what=${1:?"seconds, or merge"}
shift
names=("$@")
if [[ ${#names[@]} == 0 ]]; then
  for file in fuzz/targets/*.cpp; do names+=("$(basename "$file" .cpp)"); done
fi

cmake --preset fuzz > /dev/null
nice -n 19 cmake --build build-fuzz --parallel 2 --target "${names[@]/#/fuzz_}"
if [[ -d /dev/shm ]]; then export TMPDIR=/dev/shm; fi  # shops and copies are made for many inputs; syncing is no matter here

bytes_max=65536   # of one input
kept_max=4096     # of one that is kept
mkdir -p build-fuzz/ended
status=0
for name in "${names[@]}"; do
  found=build-fuzz/found/$name
  mkdir -p "$found"
  if [[ $what == merge ]]; then
    before=$(ls "fuzz/corpus/$name" | wc -l)
    nice -n 19 "build-fuzz/bin/fuzz_$name" -set_cover_merge=1 -use_counters=0 -max_len=$kept_max "fuzz/corpus/$name" "$found" \
      > "build-fuzz/ended/$name-merge.log" 2>&1 || status=1
    echo "$name: $before inputs, now $(ls "fuzz/corpus/$name" | wc -l)"
    continue
  fi
  log=build-fuzz/ended/$name.log
  nice -n 19 "build-fuzz/bin/fuzz_$name" "$found" "fuzz/corpus/$name" -max_total_time="$what" -max_len=$bytes_max -timeout=120 \
    -rss_limit_mb=2048 -artifact_prefix="build-fuzz/ended/$name-" -print_final_stats=1 > "$log" 2>&1 && result="nothing found" || {
    status=1
    result=$(grep -a -m1 -E "broken assumption|runtime error|SUMMARY" "$log" || tail -n 1 "$log")
  }
  executions=$(grep -aoP 'number_of_executed_units: \K\d+' "$log" || echo 0)
  echo "$name: $executions inputs in $what s: $result"
done
exit $status
