#pragma once
// Counts one machine over a run of recordings, all of it at hand.

#include <array>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "src/counters/counter_key.h"
#include "src/counters/machine_model.h"
#include "src/counters/observation.h"
#include "src/counters/settings.h"
#include "src/counters/tally.h"

namespace hw::counters {

// What arrived one after the other: a chain of documents, or one log. Which of two arrived first has a meaning only
// within a source.
using Source = std::span<const Observation>;

struct Window {
  std::optional<Instant> from;  // nothing: the first time seen
  std::optional<Instant> to;    // nothing: the last time seen
};

struct ItemCount {
  std::uint32_t item = 0;  // index into the model's items
  std::string label;
  Tally tally;
};

struct OwnCount {
  std::uint32_t item = 0;
  std::string label;
  OwnReadings readings;
};

struct Report {
  Instant from;
  Instant to;
  std::array<std::optional<Tally>, machine_counters> counters;    // by CounterKind; nothing where the items are missing
  std::map<LocalDate, std::array<Tally, machine_counters>> days;  // with CountSettings::by_day
  std::vector<ItemCount> items;                                   // those that were known at any time
  std::vector<OwnCount> own_counters;

  std::int64_t window_ns() const { return (to - from).ns; }
};

// The sources are ordered by the time of their first observation, equals as given. A source that begins before the end
// of those before it runs beside them: the rule for two clocks looks at each by itself.
//
// Refuses (bad_input) a run without observations where the window needs one, a window that is empty, and one of more
// than 200 years.
Result<Report> count_run(const MachineModel& model, std::span<const Source> sources, const Window& window,
                         const CountSettings& settings);

}  // namespace hw::counters
