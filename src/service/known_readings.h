#pragma once
// What every reading of one machine does, learned when somebody first asks and kept until its task is done or changed.

#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "src/catalogue/plant_calendar.h"
#include "src/due/reading_trend.h"
#include "src/service/reading_series.h"

namespace hw::service {

// When a reading meets one of its limits.
struct LimitCrossing {
  due::ReadingLimit limit;
  bool is_beyond = false;    // it is beyond already
  due::DueQuantiles days{};  // counted from the day on which it was last read; empty where it is beyond
};

struct TimedValue {
  Instant at;
  double value = 0;
};

struct KnownReading {
  std::vector<TimedValue> values;  // the oldest first
  std::optional<ReadRecord> last;
  std::vector<due::DatedReading> days;  // what counts of the values
  Result<due::ReadingTrend> trend;
  std::vector<LimitCrossing> ahead = {};  // limits toward which the trend goes, the nearest first; none without a trend
};

// Every limit that the reading has, whatever its trend. Empty where there are too few days.
std::vector<LimitCrossing> crossings_of(const std::vector<due::DatedReading>& days,
                                        const catalogue::TaskReading& reading);

struct ReadingDue;  // reading_triggers.h

// One reading of one task of a machine, by its key.
struct ReadingPlace {
  std::string_view machine;
  const catalogue::Task& task;
  const catalogue::TaskReading& reading;
};

class KnownReadings {
 public:
  // The caller holds a lock of the shop. Errors: what the store refuses.
  Result<std::shared_ptr<const KnownReading>> of(Store& store, const Zone& zone, std::string_view machine,
                                                 const catalogue::Task& task,
                                                 const catalogue::TaskReading& reading) const;
  // When its values since then meet a limit of that kind (reading_triggers.h).
  Result<std::shared_ptr<const ReadingDue>> due_since(Store& store, const Zone& zone, const ReadingPlace& place,
                                                      catalogue::LimitKind limit, Instant since) const;
  // Something was read, or the task is another now. The caller holds the shop's lock for changes.
  void forget(const std::string& task);

 private:
  mutable std::mutex mutex_;
  mutable std::map<std::string, std::map<std::string, std::shared_ptr<const KnownReading>>> by_task_;  // then by what
  using DueKey = std::tuple<std::string, catalogue::LimitKind, Instant>;
  mutable std::map<std::string, std::map<DueKey, std::shared_ptr<const ReadingDue>>> dues_;  // by task
};

}  // namespace hw::service
