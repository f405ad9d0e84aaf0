#include "src/counters/meter.h"

#include <cmath>
#include <limits>
#include <utility>

#include "libs/values/assert.h"

namespace hw::counters {
namespace {

constexpr Instant far_future{std::numeric_limits<std::int64_t>::max()};
constexpr double seconds_per_hour = 3600;  // controls count seconds, people hours

CounterKind kind_of_item(Role role) {
  switch (role) {
    case Role::availability:
    case Role::power_state:
      return CounterKind::powered;
    case Role::execution:
      return CounterKind::operating;
    case Role::spindle_speed:
      return CounterKind::spindle;
    case Role::path_feed:
      return CounterKind::feeding;
    case Role::own_counter:
      return CounterKind::own;
    case Role::count:
      return CounterKind::count;
    case Role::load:
      return CounterKind::cutting;
    default:
      return CounterKind::axis;
  }
}

// What one unit of the item's value adds up to in a nanosecond: turns of a spindle (1/min) and of a rotary axis
// (degrees/s), metres of a feed (mm/s).
double amount_per_unit_ns(Role role) {
  switch (role) {
    case Role::spindle_speed:
      return 1.0 / 60e9;
    case Role::angular_velocity:
      return 1.0 / 360e9;
    case Role::path_feed:
    case Role::path_rapid:
    case Role::axis_feed:
      return 1.0 / 1e12;
    default:
      return 0;
  }
}

}  // namespace

Meter::Meter(std::shared_ptr<const MachineModel> model, CountSettings settings, MeterUse use, std::vector<bool> present)
    : model_(std::move(model)),
      settings_(std::move(settings)),
      use_(use),
      now_{std::numeric_limits<std::int64_t>::min()},
      day_end_(far_future) {
  add_slots();
  for (std::size_t i = 0; i < items_.size(); ++i) items_[i].present = !present.empty() && present[i];
  rewire();
}

void Meter::add_slots() {
  for (std::size_t kind = 0; kind < machine_counters; ++kind) slots_.push_back({static_cast<CounterKind>(kind), {}});
  items_.resize(model_->items.size());
  own_.resize(model_->items.size());
  for (std::uint32_t i = 0; i < items_.size(); ++i) {
    const Role role = model_->items[i].role;
    if (role == Role::none) continue;
    const bool is_word = role == Role::availability || role == Role::power_state || role == Role::execution;
    const bool is_number = role == Role::own_counter || role == Role::count;
    items_[i].kind = is_word              ? Kind::word
                     : is_number          ? Kind::number
                     : role == Role::load ? Kind::load
                                          : Kind::magnitude;
    items_[i].amount_per_unit_ns = amount_per_unit_ns(role);
    items_[i].slot = static_cast<std::uint32_t>(slots_.size());
    slots_.push_back({kind_of_item(role), i});
  }
  counters_.resize(slots_.size());
}

void Meter::settle(Instant at, std::span<const Observation> changes) {
  advance(at);
  for (const Observation& change : changes) take(change);
  if (wiring_is_old_) rewire();
  if (gates_changed_) propagate();
  if (all_touched_ || !touched_.empty()) account();
  if (!fills_.empty() && counting_) settle_fills();
}

void Meter::take(const Observation& change) {
  if (change.item >= items_.size()) return take_mark(static_cast<Mark>(change.item));
  ItemState& item = items_[change.item];
  if (item.kind == Kind::number && !is_unknown(change.value)) item.heard_at = now_;
  if (item.kind == Kind::unused || is_same(item.value, change.value)) return;
  if (!item.present && !becomes_present(item, change.value)) return;
  if (item.kind == Kind::number) take_number(item, change.item, change.value);
  if (item.amount_per_unit_ns > 0) change_rate(item, change.value);
  item.value = change.value;
  const Truth truth = truth_of(item, change.value);
  if (truth != item.truth) change_truth(item, change.item, truth);
}

bool Meter::becomes_present(ItemState& item, double value) {
  if (use_ == MeterUse::recording || is_unknown(value)) return false;
  item.present = wiring_is_old_ = true;
  return true;
}

void Meter::change_rate(ItemState& item, double value) {
  integrate(item);
  item.amount_per_ns = is_unknown(value) ? 0 : std::abs(value) * item.amount_per_unit_ns;
}

void Meter::take_mark(Mark mark) {
  switch (mark) {
    case Mark::window_begin:
      return begin_window();
    case Mark::window_end:
      bring_all_up_to_now();
      counting_ = false;
      return;
    case Mark::blind_begin:
    case Mark::blind_end:
      bring_all_up_to_now();
      blind_ += mark == Mark::blind_begin ? 1 : -1;
      all_touched_ = true;
      return;
    case Mark::alive:
      return;
  }
  HW_ASSERT(false, "an observation is of one of the model's items");
}

void Meter::take_number(ItemState& item, std::uint32_t index, double value) {
  if (is_unknown(value)) return;
  const double step = value - std::exchange(item.last_known, value);
  if (!counting_) return;
  OwnReadings& own = own_[index];
  if (step > 0) {
    own.rises += step;
    const bool is_own = slots_[item.slot].kind == CounterKind::own;
    counters_[item.slot].day.amount += is_own ? step / seconds_per_hour : step;
  }
  if (step < 0) ++own.falls;
  if (!own.first) own.first = value;
  own.last = value;
}

Truth Meter::truth_of(const ItemState& item, double value) const {
  if (is_unknown(value)) return Truth::unknown;
  switch (item.kind) {
    case Kind::word:
      return value > 0 ? Truth::yes : Truth::no;
    case Kind::magnitude:
      return value != 0 ? Truth::yes : Truth::no;
    case Kind::load:
      return value > settings_.load_above_percent.value_or(0) ? Truth::yes : Truth::no;
    default:
      return Truth::yes;
  }
}

void Meter::change_truth(ItemState& item, std::uint32_t index, Truth truth) {
  if (!wiring_is_old_) {
    for (const Wire wire : wiring_.wires_of(index)) {
      const Truth before = aspect_of(item.truth, wire.aspect);
      const Truth after = aspect_of(truth, wire.aspect);
      if (before == after) continue;
      wiring_.gates[wire.gate].change(before, after);
      gates_changed_ = true;
    }
  }
  item.truth = truth;
  touch(item.slot);
}

// Gates stand so that each comes before the one it feeds: one pass settles them all.
void Meter::propagate() {
  gates_changed_ = false;
  for (Gate& gate : wiring_.gates) {
    const Truth value = gate.joined();
    if (value == gate.value) continue;
    if (gate.out != no_gate) wiring_.gates[gate.out].change(gate.value, value);
    gate.value = value;
  }
  for (std::size_t slot = 0; slot < machine_counters; ++slot) {
    const std::uint16_t gate = wiring_.counter_gates[slot];
    if (gate != no_gate && wiring_.gates[gate].value != counters_[slot].state) touch(slot);
  }
}

// Anew with the items that are known by now. A counter that is there from now on begins now; one that lost what it
// needs (positions, once a feed rate is known) goes on as unknown.
void Meter::rewire() {
  std::vector<bool> present;
  for (const ItemState& item : items_) present.push_back(item.present);
  wiring_ = Wiring(model_->items, settings_, present);
  wiring_is_old_ = gates_changed_ = false;
  for (std::size_t i = 0; i < items_.size(); ++i) {
    for (const Wire wire : wiring_.wires_of(i)) wiring_.gates[wire.gate].set(aspect_of(items_[i].truth, wire.aspect));
  }
  for (Gate& gate : wiring_.gates) {
    gate.value = gate.joined();
    if (gate.out != no_gate) wiring_.gates[gate.out].set(gate.value);
  }
  for (std::size_t slot = 0; slot < counters_.size(); ++slot) {
    const std::optional<std::uint32_t> item = slots_[slot].item;
    const bool present_now = item ? wiring_.uses(*item) : wiring_.counter_gates[slot] != no_gate;
    if (present_now && !counters_[slot].present) counters_[slot].since = now_;
    counters_[slot].present |= present_now;
  }
  all_touched_ = true;
}

// From a restored state: what follows from the rest.
void Meter::derive() {
  for (ItemState& item : items_) {
    if (item.kind == Kind::unused || !item.present) continue;
    item.truth = truth_of(item, item.value);
    item.amount_per_ns = is_unknown(item.value) ? 0 : std::abs(item.value) * item.amount_per_unit_ns;
  }
  rewire();
  if (counting_ && settings_.by_day) day_end_ = settings_.zone.end_of(day_);
}

void Meter::touch(std::size_t slot) {
  if (counters_[slot].touched) return;
  counters_[slot].touched = true;
  touched_.push_back(static_cast<std::uint32_t>(slot));
}

// Only now, when all of this moment is settled, do counters turn: a state that lasted no time never was.
void Meter::account() {
  if (all_touched_) {
    for (std::size_t slot = 0; slot < counters_.size(); ++slot) touch(slot);
  }
  all_touched_ = false;
  for (const std::uint32_t slot : touched_) {
    Counter& counter = counters_[slot];
    counter.touched = false;
    const Truth state = counted_state(slot);
    if (state == counter.state) continue;
    count_time(counter);
    counter.state = state;
    counter.turned_at = now_;
    if (state == Truth::yes && counting_ && counter.present) ++counter.day.starts;
  }
  touched_.clear();
}

// While blind every state is unknown; but that nothing is connected is known.
Truth Meter::counted_state(std::size_t slot) const {
  const bool is_connected = slot == static_cast<std::size_t>(CounterKind::connected);
  if (blind_ > 0) return is_connected ? Truth::no : Truth::unknown;
  if (const auto item = slots_[slot].item) return wiring_.uses(*item) ? items_[*item].truth : Truth::unknown;
  const std::uint16_t gate = wiring_.counter_gates[slot];
  return gate == no_gate ? Truth::unknown : wiring_.gates[gate].value;
}

void Meter::count_time(Counter& counter) {
  if (counting_ && counter.present) counter.day.ns[index_of(counter.state)] += (now_ - counter.since).ns;
  counter.since = now_;
}

void Meter::integrate(ItemState& item) {
  if (counting_ && blind_ == 0 && item.amount_per_ns > 0) {
    counters_[item.slot].day.amount += item.amount_per_ns * static_cast<double>((now_ - item.rate_since).ns);
  }
  item.rate_since = now_;
}

void Meter::bring_all_up_to_now() {
  for (Counter& counter : counters_) count_time(counter);
  for (ItemState& item : items_) integrate(item);
}

void Meter::begin_window() {
  HW_ASSERT(!counting_, "a meter's window begins once");
  for (Counter& counter : counters_) {
    counter.since = now_;
    counter.day = counter.before = {};
  }
  for (std::size_t i = 0; i < items_.size(); ++i) {
    ItemState& item = items_[i];
    item.rate_since = now_;
    item.last_known = item.value;
    own_[i] = {};
    if (item.kind == Kind::number && !is_unknown(item.value)) own_[i].first = own_[i].last = item.value;
  }
  counting_ = true;
  day_ = settings_.zone.date_of(now_);
  if (settings_.by_day) day_end_ = settings_.zone.end_of(day_);
}

Tally Meter::total(std::size_t slot) const {
  Tally sum = counters_[slot].before;
  return sum += today(slot);
}

Tally Meter::today(std::size_t slot) const {
  const Counter& counter = counters_[slot];
  Tally tally = counter.day;
  if (!counting_ || !counter.present) return tally;
  tally.ns[index_of(counter.state)] += (now_ - counter.since).ns;
  if (const auto item = slots_[slot].item; item && blind_ == 0) {
    const ItemState& state = items_[*item];
    if (state.amount_per_ns > 0)
      tally.amount += state.amount_per_ns * static_cast<double>((now_ - state.rate_since).ns);
  }
  return tally;
}

}  // namespace hw::counters
