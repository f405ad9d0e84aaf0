#!/bin/bash
# tools/sanitize.sh [SUITE...]   builds each test program, or those that are named, with AddressSanitizer and
#                                UndefinedBehaviorSanitizer and runs it; what can start a thread with ThreadSanitizer too
#
# One line for each suite, and a last one with the sums. What a suite printed lies in build-asan/sanitized/SUITE, and beside it
# one SUITE.report.PROCESS for each process, also of a server that the suite started, in which a sanitizer found something.
# Not a part of "make test": it builds everything twice more.
set -uo pipefail
cd "$(dirname "$0")/.."

# Under sanitizers everything takes several times as long: fewer of what is only repeated, unless asked for.
export HOURWRIGHT_KILLS=${HOURWRIGHT_KILLS:-12} HOURWRIGHT_POWER_CUTS=${HOURWRIGHT_POWER_CUTS:-280} \
       HOURWRIGHT_DISK_ERRORS=${HOURWRIGHT_DISK_ERRORS:-2} HW_SHOP_YEAR_SEEDS=${HW_SHOP_YEAR_SEEDS:-20}
# They measure memory, of which sanitizers keep what was given back.
left_out=-Crowd.PagesThatComeAndGoCostNoMemory:LyingAgents.AreToldApartAndDoNoHarm
# Their clients wait for seconds for what takes a minute with ThreadSanitizer, or they bound what a kill costs by the usual pace.
left_out_tsan=Served.WhatIsNoSheetIsRefused:Kill.AtAnyMomentNeitherLosesNorDoublesANanosecond

for preset in asan tsan; do
  cmake --preset $preset > /dev/null || exit 1
  mkdir -p build-$preset/sanitized
done
suites=("$@")
if [[ ${#suites[@]} == 0 ]]; then
  mapfile -t suites < <(ninja -C build-asan -t query tests | sed -n 's,^ *bin/,,p'
                        grep -rhoP '^add_test\(\[=\[\K[^]]+(?=\]=\] "python3".*/hourwright"\))' build-asan/tests)
fi
clean=0 tests=0 reports=0
failed=()

# Those with a point in their name are tests in Python of the program.
run_suite() {
  local build=$1 suite=$2 target=$2
  [[ $suite == *.* ]] && target=hourwright
  cmake --build "$build" --target "$target" > "$build/sanitized/build" 2>&1 || { cat "$build/sanitized/build"; return 1; }
  if [[ $suite == *.* ]]; then
    ctest --test-dir "$build" -R "^${suite//./\\.}\$" --no-tests=error --output-on-failure --timeout 1800
  else
    "$build/bin/$suite"
  fi
}

run_under() {
  local preset=$1 suite=$2 log=build-$1/sanitized/$2 status found passed filter=$left_out
  [[ $preset != tsan ]] || filter+=:$left_out_tsan
  rm -f "$log" "$log".report.*
  local reports_at="log_path=$PWD/$log.report"
  GTEST_FILTER=${GTEST_FILTER:-$filter} ASAN_OPTIONS=$reports_at LSAN_OPTIONS="suppressions=$PWD/tools/leaks_of_others.txt:print_suppressions=0" \
    UBSAN_OPTIONS=print_stacktrace=1 TSAN_OPTIONS="$reports_at:suppressions=$PWD/tools/races_of_others.txt:ignore_noninstrumented_modules=0" run_suite "build-$preset" "$suite" > "$log" 2>&1
  status=$?
  # UndefinedBehaviorSanitizer writes to no file: what it says of a server stands in that one's output, and ends it.
  found=$(($(find "build-$preset/sanitized" -name "$suite.report.*" | wc -l) + $(grep -c ': runtime error: ' "$log")))
  passed=$(grep -oP '(PASSED  \] |tests passed, 0 tests failed out of )\K\d+' "$log" || echo 0)
  tests=$((tests + passed)) reports=$((reports + found))
  if [[ $status == 0 && $found == 0 && $passed != 0 ]] && ! grep -q 'SKIPPED' "$log"; then
    clean=$((clean + 1))
    echo "$preset $suite: $passed tests, clean"
  else
    failed+=("$preset $suite")
    echo "$preset $suite: FAILED, $passed tests passed, $found reports ($log)"
  fi
}

for suite in "${suites[@]}"; do
  run_under asan "$suite"
  # Not grep -q: it ends before nm has written all, which then counts as failed.
  if [[ $suite == *.* ]] || nm -D --undefined-only "build-asan/bin/$suite" 2> /dev/null | grep -E '_M_start_thread|pthread_create' > /dev/null; then
    run_under tsan "$suite"
  fi
done
echo "left out: out_of_memory_test, which has a malloc of its own as the sanitizers have; $left_out; for threads also $left_out_tsan"
echo "$clean suites clean, ${#failed[@]} failed; $tests tests passed, $reports reports"
[[ ${#failed[@]} == 0 ]]
