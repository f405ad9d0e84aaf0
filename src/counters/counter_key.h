#pragma once
// What a counter is called: its kind, and the item that it counts where it is not the whole machine's.
//
//   key = "connected" | "powered" | "operating" | "spindle" | "feeding" | "axis" | "cutting"
//       | ("spindle" | "axis" | "revolutions" | "travel" | "own" | "count") " " label

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw::counters {

enum class CounterKind : std::uint8_t {
  connected,
  powered,
  operating,
  spindle,
  feeding,
  axis,
  cutting,
  revolutions,  // of one spindle, or of a rotary axis: turns
  travel,       // of one feed rate: metres
  own,          // what the control's own time counter rose by: hours
  count,        // what a count of the control rose by
};

// The first seven kinds are the whole machine's hours.
inline constexpr std::size_t machine_counters = 7;
inline constexpr std::size_t counter_kinds = 11;

struct CounterKey {
  CounterKind kind = CounterKind::connected;
  std::string label;  // the item's label where the counter is one item's; empty: the machine's

  auto operator<=>(const CounterKey&) const = default;
};

std::string_view word_of(CounterKind kind);

// "h", "rev", "m" or "1" (pieces, cycles).
std::string_view unit_of(CounterKind kind);

// True where a tally's `amount` counts, in unit_of(kind); false where its counted time does.
bool is_amount(CounterKind kind);

// How the number is defined, in a few words that can stand beside it.
std::string_view definition_of(CounterKind kind);

std::string print(const CounterKey& key);
// Refuses (bad_input) unknown kinds, a label behind a kind that has none, and no label where one belongs.
Result<CounterKey> parse_counter_key(std::string_view text);

}  // namespace hw::counters
