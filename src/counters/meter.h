#pragma once
// The innermost part: takes, moment by moment, what has changed, and integrates. No order to make here, no ties, no
// motion to find: engine.h does that before.
//
// Each counter's state and each rate holds between two moments, so time is added only when one of them changes: an
// observation that changes nothing costs a comparison. Hours are whole nanoseconds; amounts are doubles, added in an
// order that depends on the observations alone.

#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "src/counters/fill.h"
#include "src/counters/machine_model.h"
#include "src/counters/observation.h"
#include "src/counters/settings.h"
#include "src/counters/tally.h"
#include "src/counters/wiring.h"

namespace hw::counters {

// What is no observation, but has its place between them: an Observation whose `item` is one of these.
enum class Mark : std::uint32_t {
  window_begin = 0xffff'fff0,  // counting begins here; before the observations of its moment
  window_end,                  // and ends here; before the observations of its moment
  blind_begin,                 // from here on nothing is known, whatever the items say; may be nested
  blind_end,
  alive,  // a sign of life without a value
};

inline Observation mark_at(Instant at, Mark mark) { return {at, static_cast<std::uint32_t>(mark), 0}; }

enum class MeterUse : std::uint8_t {
  recording,  // which items are ever known is known beforehand; days are kept of the machine's counters
  live,       // an item counts from the moment on at which it is first known; days are kept of every counter
};

// What one counter of the meter counts: a machine counter, or one item.
struct CounterSlot {
  CounterKind kind = CounterKind::connected;
  std::optional<std::uint32_t> item;
};

class Meter {
 public:
  // `present` (for recordings): which items have a known value at any time; by item.
  Meter(std::shared_ptr<const MachineModel> model, CountSettings settings, MeterUse use, std::vector<bool> present);

  // The unknown time of a machine counter is filled by this item, a counter of the control.
  void fill_by(CounterKind kind, std::uint32_t item);
  // Values hold at least until then: the feed says that it has told everything.
  void hold_until(Instant time);
  // Until when they do at least; nothing before anything was heard.
  std::optional<Instant> held_until() const { return life_at_; }

  // All that is observed at one moment, in order, the last of an item being what holds. Moments never go back.
  void settle(Instant at, std::span<const Observation> changes);

  const MachineModel& model() const { return *model_; }
  const CountSettings& settings() const { return settings_; }
  bool motion_from_positions() const { return wiring_.motion_from_positions; }
  Instant now() const { return now_; }
  // Where the feed was silent for longer than the limit just before now(): since when nothing was known.
  std::optional<Instant> silent_from() const { return silent_from_; }

  // The seven machine counters in the order of CounterKind, then one for each item that has a role.
  const std::vector<CounterSlot>& slots() const { return slots_; }
  bool is_present(std::size_t slot) const { return counters_[slot].present; }
  Tally total(std::size_t slot) const;
  // The open day's share, and that up to now() where nothing has turned since.
  Tally today(std::size_t slot) const;
  Truth state(std::size_t slot) const { return counters_[slot].state; }
  Instant turned_at(std::size_t slot) const { return counters_[slot].turned_at; }
  const OwnReadings& own_readings(std::size_t item) const { return own_[item]; }
  // Days that are over since the last call, and those that were filled afterwards.
  std::vector<DayTally> take_days();
  // The day that is not over yet, as far as it is counted.
  std::vector<DayTally> day_so_far() const;

 private:
  template <class Archive>
  friend void archive_meter(Archive& archive, Meter& meter);

  // How a value becomes true or false, and what it adds up to.
  enum class Kind : std::uint8_t { unused, word, magnitude, load, number };

  struct ItemState {
    double value = unknown_value;
    double last_known = unknown_value;
    double amount_per_ns = 0;  // at the present value
    double amount_per_unit_ns = 0;
    Instant rate_since;
    Instant heard_at{std::numeric_limits<std::int64_t>::min()};  // of numbers: when it was known last
    std::uint32_t slot = 0;
    Kind kind = Kind::unused;
    Truth truth = Truth::unknown;
    bool present = false;
  };

  struct Counter {
    Tally day;          // of the day that is open; of everything where days are not kept
    Tally before;       // of the days that are over
    Instant since;      // its time is counted up to here
    Instant turned_at;  // its state is what it is since then
    Truth state = Truth::unknown;
    bool present = false;
    bool touched = false;
  };

  void add_slots();
  void derive();
  void take(const Observation& change);
  bool becomes_present(ItemState& item, double value);
  void change_rate(ItemState& item, double value);
  void take_mark(Mark mark);
  void take_number(ItemState& item, std::uint32_t index, double value);
  void change_truth(ItemState& item, std::uint32_t index, Truth truth);
  Truth truth_of(const ItemState& item, double value) const;
  void propagate();
  void rewire();
  void touch(std::size_t slot);
  void account();
  Truth counted_state(std::size_t slot) const;
  void count_time(Counter& counter);
  void integrate(ItemState& item);
  void bring_all_up_to_now();
  void begin_window();
  void advance(Instant at);
  std::optional<Instant> fall_silent_before(Instant at);
  void close_day();
  void settle_fills();
  void settle_fill(Fill& fill);
  void append_day(std::vector<DayTally>& days, LocalDate date) const;

  std::shared_ptr<const MachineModel> model_;
  CountSettings settings_;
  MeterUse use_;
  std::vector<CounterSlot> slots_;
  std::vector<ItemState> items_;
  std::vector<OwnReadings> own_;
  std::vector<Counter> counters_;
  std::vector<std::uint32_t> touched_;
  Wiring wiring_;
  bool gates_changed_ = false;
  bool wiring_is_old_ = false;
  bool all_touched_ = false;
  bool counting_ = false;
  std::int32_t blind_ = 0;
  Instant now_;
  std::optional<Instant> life_at_;  // the last sign of life
  std::optional<Instant> silent_from_;
  std::vector<Fill> fills_;
  LocalDate day_;
  Instant day_end_;
  std::vector<DayTally> days_;
};

}  // namespace hw::counters
