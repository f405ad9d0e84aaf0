#include "src/counters/counter_key.h"

#include <algorithm>

namespace hw::counters {
namespace {

struct KindRow {
  std::string_view word;
  std::string_view unit;
  bool of_machine;
  bool of_item;
  std::string_view definition;
};

// In the order of CounterKind.
constexpr std::array<KindRow, counter_kinds> kind_rows{{
    {"connected", "h", true, false, "at least one data item is known"},
    {"powered", "h", true, false, "Availability is AVAILABLE and no PowerState is OFF; else all PowerStates ON"},
    {"operating", "h", true, false, "Execution is ACTIVE; holds, stops and interruptions do not count"},
    {"spindle", "h", true, true, "a spindle turns (actual speed is not 0)"},
    {"feeding", "h", true, false, "the path feed rate is not 0, rapids of the path included"},
    {"axis", "h", true, true, "an axis moves (path or axis feed rate is not 0; from positions where there is none)"},
    {"cutting", "h", true, false,
     "operating, and the spindle turns, and it feeds; rapids with a turning spindle count"},
    {"revolutions", "rev", false, true, "turns: the speed summed over time"},
    {"travel", "m", false, true, "distance: the feed rate summed over time"},
    {"own", "h", false, true, "what the control's own time counter rose by"},
    {"count", "1", false, true, "what the control's own count rose by"},
}};

const KindRow& row_of(CounterKind kind) { return kind_rows[static_cast<std::size_t>(kind)]; }

}  // namespace

std::string_view word_of(CounterKind kind) { return row_of(kind).word; }
std::string_view unit_of(CounterKind kind) { return row_of(kind).unit; }
bool is_amount(CounterKind kind) { return kind >= CounterKind::revolutions; }
std::string_view definition_of(CounterKind kind) { return row_of(kind).definition; }

std::string print(const CounterKey& key) {
  std::string text(word_of(key.kind));
  if (!key.label.empty()) text.append(" ").append(key.label);
  return text;
}

Result<CounterKey> parse_counter_key(std::string_view text) {
  const std::string_view word = text.substr(0, text.find(' '));
  const std::string_view label = word.size() == text.size() ? std::string_view{} : text.substr(word.size() + 1);
  const auto row = std::find_if(kind_rows.begin(), kind_rows.end(), [&](const KindRow& r) { return r.word == word; });
  if (row == kind_rows.end()) {
    return refuse(ErrorCode::bad_input, "there is no counter \"{}\"; for example \"operating\" or \"spindle S1\"",
                  text);
  }
  if (word.size() != text.size() && (label.empty() || !row->of_item)) {
    return refuse(ErrorCode::bad_input, "the counter \"{}\" takes no item; write \"{}\"", text, word);
  }
  if (label.empty() && !row->of_machine) {
    return refuse(ErrorCode::bad_input, "the counter \"{}\" needs the item it counts, as in \"{} S1\"", text, word);
  }
  return CounterKey{static_cast<CounterKind>(row - kind_rows.begin()), std::string(label)};
}

}  // namespace hw::counters
