#pragma once
// The counting of one machine while the server runs: the live count, and what of it still has to be stored.

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "libs/values/zone.h"
#include "src/counters/live_count.h"
#include "src/counters/relevant_only.h"
#include "src/service/carried.h"
#include "src/service/store.h"

namespace hw::service {

// One counter at one moment, in its unit; hours counters in hours.
struct CounterNow {
  counters::CounterKey key;
  double counted = 0;
  double filled = 0;
  double unknown_h = 0;
  double today = 0;  // counted and filled since local midnight
  double today_unknown_h = 0;
};

// What the machine does: "cutting", "running", "spindle turning", "standing", "off", "not known".
struct Doing {
  std::string state = "not known";
  std::optional<Instant> since;
};

struct MachineNow {
  std::vector<CounterNow> counters;
  Doing doing;
};

// How a machine of the plant is counted; `fills` as below.
counters::LiveSettings live_settings(const Zone& zone, const std::map<std::string, std::string>& fills);

// Not for two threads at once. Until a model has come it counts nothing.
class MachineCount {
 public:
  // `fills`: which item, by id, fills a counter's unknown time; see counters::LiveSettings.
  explicit MachineCount(Zone zone = Zone::utc(), const std::map<std::string, std::string>& fills = {});

  // Goes on where the record ends. Refuses (corrupt) a record that does not read.
  Result<void> restore(const CountingRecord& record);
  // What the machine's agent says that it has, as of `now`. Another model than before: totals go on by the counters'
  // names.
  void set_model(const counters::MachineModel& model, Instant now);
  const counters::MachineModel* model() const { return live_ ? &live_->model() : nullptr; }

  // Observations in order of arrival; nothing is counted beyond `now`.
  void take(std::span<const counters::Observation> observations, Instant now);
  // The feed has told everything until then: the last values hold so long.
  void alive_until(Instant time);

  // Held values count up to `now`, or to the limit of silence after the feed's last sign of life.
  MachineNow at(Instant now) const;
  std::optional<Instant> counting_since() const;
  // The counters as they stood at a moment before now, counted again from the record and from what is not saved yet.
  // Nothing where that cannot be known any more: the moment is one of an earlier model of the machine.
  Result<std::optional<std::vector<CounterNow>>> at_past(Store& store, const std::string& machine,
                                                         Instant moment) const;
  // The days of a counter, by its key, that are not stored as they are as of `now`: today, and more after a silence.
  std::map<LocalDate, DayRecord> unsaved_days(const std::string& counter, Instant now) const;

  // What has to be stored since the last saved(); nothing when nothing has.
  std::optional<CountingStep::Machine> unsaved(const std::string& machine);
  void saved(const CountingStep::Machine& part);

  // Something came too late to be counted in its place.
  bool has_late() const { return late_from_.has_value(); }
  // Counts anew from the record, and from what is not saved yet, where something came too late to be counted in its
  // place.
  Result<void> recount_late(Store& store, const std::string& machine, Instant now);

 private:
  DayRecord with_carried(const counters::CounterDay& day) const;
  void collect_days(const std::vector<counters::CounterDay>& days);
  CounterNow counter_now(const counters::CounterTotal& total, Instant now) const;
  void add_carried(std::vector<CounterNow>& counters, Instant now) const;
  void keep_passed_over();
  // A count as it was kept, and the day of the checkpoint that has it; without a day it is as it began.
  struct Earlier {
    counters::LiveCount live;
    std::optional<LocalDate> checkpoint_on;
  };
  Result<std::optional<Earlier>> checkpoint_before(Store& store, const std::string& machine, Instant moment) const;
  Result<std::optional<Earlier>> count_before(Store& store, const std::string& machine, Instant moment) const;
  Result<std::optional<counters::LiveCount>> recounted_from(Store& store, const std::string& machine, Instant late,
                                                            Instant now) const;
  Result<std::vector<counters::Observation>> logged_since(Store& store, const std::string& machine,
                                                          std::optional<LocalDate> checkpoint_on) const;

  counters::LiveSettings settings_;
  std::optional<counters::LiveCount> live_;
  std::optional<counters::RelevantOnly> relevant_;  // there when live_ is: what of it goes into the log
  Carried carried_;
  // Not stored yet.
  std::uint64_t news_ = 0;  // rises with every change, so that what comes while the store works is not taken for saved
  std::uint64_t offered_news_ = 0;
  std::uint64_t saved_news_ = 0;
  std::map<std::pair<std::string, LocalDate>, DayRecord> days_;
  std::vector<LogPiece> log_;
  std::optional<LocalDate> checkpoint_on_;  // the last day that has a checkpoint
  std::optional<Instant> late_from_;  // the earliest that came too late; kept with the state until it is recounted
};

}  // namespace hw::service
