#pragma once
// What a counter has counted over some span of time.

#include <array>
#include <cstdint>
#include <optional>

#include "libs/values/local_date.h"
#include "src/counters/truth.h"

namespace hw::counters {

struct Tally {
  std::array<std::int64_t, truths> ns{};  // by index_of(Truth): no + yes + unknown is the span, exactly
  std::int64_t filled_ns = 0;             // of the unknown time, what the control's own counter says was counted
  std::uint64_t starts = 0;               // how often it became true
  double amount = 0;                      // the integral of the rate: turns, metres, hours, pieces

  std::int64_t counted_ns() const { return ns[index_of(Truth::yes)]; }
  std::int64_t false_ns() const { return ns[index_of(Truth::no)]; }
  std::int64_t unknown_ns() const { return ns[index_of(Truth::unknown)]; }
  Tally& operator+=(const Tally& more);
  bool operator==(const Tally&) const = default;
};

// One counter's share of one local day. `counter` is an index into Engine::counters().
struct DayTally {
  LocalDate date;
  std::uint32_t counter = 0;
  Tally tally;
  bool operator==(const DayTally&) const = default;
};

// A counter of the control itself, read as steps: the values between falls and rises.
struct OwnReadings {
  std::optional<double> first;
  std::optional<double> last;
  double rises = 0;  // the sum of all steps up
  std::uint64_t falls = 0;
  bool operator==(const OwnReadings&) const = default;
};

}  // namespace hw::counters
