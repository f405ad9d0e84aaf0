#pragma once
// The values of one reading of a machine, from the logbook: read at a check of a round, or when its task was done in a
// stop. What was taken back, and what was read anew on the same walk, is left out; so is what was read in another unit
// than the reading has now. An entry of kind "correction" says in words what is right and changes no value.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "src/service/store.h"

namespace hw::service {

inline constexpr int values_kept = 200;

struct ReadRecord {
  std::string entry;
  std::string by;
  Instant at;
  double value = 0;
  std::optional<std::string> stop = {};  // in which it was read
};

// The latest values_kept of them, the oldest first.
Result<std::vector<ReadRecord>> read_series(Store& store, std::string_view machine, const catalogue::Task& task,
                                            const catalogue::TaskReading& reading);

// What was filled in when a task was done, with every counter's total then.
struct FillRecord {
  std::string entry;
  std::string by;
  Instant at;
  double amount = 0;  // above 0, in the task's unit
  CounterTotals counters = {};
};

// The unit in which a task's top ups are written down: its own, else that of its first part; nothing: it is no top up.
std::optional<std::string> fill_unit(const catalogue::Task& task);

// The latest values_kept of them, the oldest first.
Result<std::vector<FillRecord>> read_fills(Store& store, std::string_view machine, const catalogue::Task& task);

}  // namespace hw::service
