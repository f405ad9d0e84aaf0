#pragma once
// The counting of one machine while its feed runs.
//
// Observations are taken as they arrive and put in order of time: one that is up to `reorder` older than the newest
// still finds its place. Nothing is counted for good beyond min(newest, now) less `reorder`; snapshot() counts the rest
// on a copy. All that is kept, what waits for its place included, goes into save(), so that a restored count goes on
// bit by bit as if nothing had been.
//
// An item counts from the moment on at which it is first known; until then a counter that needs it is not there.
// Days are those of the zone; only their rows that changed are handed out, as totals of the day, never as differences.

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "libs/values/result.h"
#include "src/counters/counter_key.h"
#include "src/counters/engine.h"
#include "src/counters/two_clocks.h"

namespace hw::counters {

struct LiveSettings {
  CountSettings counting;  // days are always kept
  Duration reorder = Duration::seconds(5);
  // Which item, by id, fills the unknown time of a machine counter. Where a kind is not named: the equipment timers
  // POWERED, WORKING and LOADED fill powered, operating and cutting. An empty id: nothing does.
  std::map<CounterKind, std::string> fills;
};

// Of hours counters counted_ns counts; of the others amount, in unit_of(key.kind).
struct CounterTotal {
  CounterKey key;
  Tally tally;
  Tally today;  // since local midnight
  Truth state = Truth::unknown;
  std::optional<Instant> state_since;
  bool operator==(const CounterTotal&) const = default;
};

struct CounterDay {
  LocalDate date;
  CounterKey key;
  std::int64_t counted_ns = 0;
  std::int64_t unknown_ns = 0;
  std::int64_t filled_ns = 0;  // of the unknown time
  double amount = 0;
  bool operator==(const CounterDay&) const = default;
};

struct Snapshot {
  Instant at;
  std::vector<CounterTotal> totals;  // of the counters that the machine has
  std::vector<CounterDay> days;      // as changed_days() would give them at that moment
};

class LiveCount {
 public:
  // Counts from `begin` on; what was observed before only sets the state.
  LiveCount(const MachineModel& model, LiveSettings settings, Instant begin);

  // Observations in order of arrival; `now` is our clock, and nothing is counted beyond it. Gives the earliest time of
  // those that came too late to find their place: they are left out, and a count from a state before that time puts
  // them right. Repeats are no such, and neither is an item's very first observation, however old: it counts from now.
  std::optional<Instant> take(std::span<const Observation> arrivals, Instant now);

  // Nothing is known between: the agent was restarted, observations were lost, the link was dead. Gives `from` where
  // that is counted already; then the rest is unknown.
  std::optional<Instant> interrupt(Instant from, Instant to);

  // The feed has told everything up to then: values hold so long, and the limit of silence runs from there.
  void alive_until(Instant time);
  // Up to when it has told everything; nothing before it has told anything.
  std::optional<Instant> told_until() const { return engine_.meter().held_until(); }

  // All counters as of `now`: what waits is counted, values hold up to now or the limit of silence. Changes nothing.
  Snapshot snapshot(Instant now) const;

  // The rows that have changed since the last call.
  std::vector<CounterDay> changed_days();

  // Everything before this is counted for good.
  Instant settled_until() const { return engine_.moment_at(); }
  Instant begin() const { return begin_; }
  const MachineModel& model() const { return engine_.meter().model(); }

  // A record of its own form, versioned and checked.
  std::string save() const;
  // Refuses (corrupt) a damaged record, (unsupported) one of another version, and (conflict) one of another model or
  // other settings.
  static Result<LiveCount> restore(const MachineModel& model, LiveSettings settings, std::string_view record);

 private:
  template <class Archive>
  friend void archive_live(Archive& archive, LiveCount& live);

  struct Pending {
    Observation observation;
    Instant stamped_at;  // before the rule for two clocks
  };

  bool is_repeat(const Observation& arrival) const;
  std::optional<Instant> take_one(const Observation& arrival);
  void put(const Pending& pending);
  void order_all(std::size_t unordered_from);
  void release(Instant now);
  void hand_on(const Pending& pending);
  void finish(Instant now);
  std::vector<CounterDay> rows_of(const std::vector<DayTally>& days) const;
  void append_rows(std::vector<CounterDay>& rows, const DayTally& day) const;

  LiveSettings settings_;
  Instant begin_;
  Engine engine_;
  TwoClocks clocks_;
  std::vector<Pending> pending_;                  // by time, equals in order of arrival
  std::vector<std::optional<Observation>> last_;  // by item: the last one handed on, as it was stamped
  std::optional<Instant> newest_;                 // of known values: an agent's clock may be ahead of its machine's
  std::vector<CounterDay> handed_out_;            // of the open day, as they were when they were last handed out
  std::vector<std::string> labels_;
};

}  // namespace hw::counters
