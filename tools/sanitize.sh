#!/bin/bash
# tools/sanitize.sh [SUITE...]   builds test programs with AddressSanitizer and UndefinedBehaviorSanitizer, and those in
#                                which threads meet with ThreadSanitizer, and runs them; without SUITE those below
#
# Not a part of "make test": it builds everything twice more.
set -uo pipefail
cd "$(dirname "$0")/.."
suites=("$@")
[[ ${#suites[@]} -gt 0 ]] || suites=(values_test formats_test sql_test http_test feeds_test counters_test service_test
                                      storage_test web_test shop_test fuzz_replay_test)
threaded=" http_test feeds_test service_test web_test shop_test "
clean=0
failed=()

run_under() {
  local preset=$1 suite=$2
  if cmake --preset "$preset" > /dev/null && cmake --build "build-$preset" --target "$suite" > "build-$preset/$suite.log" 2>&1 \
      && "build-$preset/bin/$suite" >> "build-$preset/$suite.log" 2>&1; then
    clean=$((clean + 1))
    echo "$preset $suite: clean, $(grep -oE '[0-9]+ tests from [0-9]+ test suites? ran' "build-$preset/$suite.log")"
  else
    failed+=("$preset/$suite")
    echo "$preset $suite: FAILED (build-$preset/$suite.log)"
  fi
}

for suite in "${suites[@]}"; do
  run_under asan "$suite"
  [[ $threaded == *" $suite "* ]] && run_under tsan "$suite"
done
echo "$clean clean, ${#failed[@]} failed"
[[ ${#failed[@]} == 0 ]]
