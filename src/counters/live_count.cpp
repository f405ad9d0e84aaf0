#include "src/counters/live_count.h"

#include <algorithm>
#include <array>
#include <utility>

namespace hw::counters {
namespace {

CountSettings with_days(CountSettings settings) {
  settings.by_day = true;
  return settings;
}

struct UsualFill {
  CounterKind kind;
  std::string_view sub_type;
};
constexpr std::array<UsualFill, 3> usual_fills{
    {{CounterKind::powered, "POWERED"}, {CounterKind::operating, "WORKING"}, {CounterKind::cutting, "LOADED"}}};

bool is_usual_fill(const Item& item, CounterKind kind) {
  return item.type == "EQUIPMENT_TIMER" && std::any_of(usual_fills.begin(), usual_fills.end(), [&](const UsualFill& f) {
           return f.kind == kind && f.sub_type == item.sub_type;
         });
}

std::optional<std::uint32_t> fill_of(const MachineModel& model, const LiveSettings& settings, CounterKind kind) {
  const auto named = settings.fills.find(kind);
  for (std::uint32_t i = 0; i < model.items.size(); ++i) {
    const Item& item = model.items[i];
    if (item.role != Role::own_counter) continue;
    if (named == settings.fills.end() ? is_usual_fill(item, kind) : item.id == named->second) return i;
  }
  return {};
}

// Which of the meter's counters are kept live: not the state of one Execution among several, nor of a load.
bool has_item_hours(Role role) {
  return role == Role::spindle_speed || role == Role::axis_feed || role == Role::angular_velocity ||
         role == Role::position;
}

bool has_amount(Role role) {
  return role == Role::spindle_speed || role == Role::axis_feed || role == Role::angular_velocity ||
         role == Role::path_feed || role == Role::path_rapid;
}

CounterKind amount_kind(Role role) {
  const bool turns = role == Role::spindle_speed || role == Role::angular_velocity;
  return turns ? CounterKind::revolutions : CounterKind::travel;
}

// The keys under which one of the meter's counters is handed out: an item that turns has hours and turns.
std::vector<CounterKey> keys_of(const CounterSlot& slot, const MachineModel& model,
                                const std::vector<std::string>& labels) {
  if (!slot.item) return {{slot.kind, ""}};
  const Role role = model.items[*slot.item].role;
  const std::string& label = labels[*slot.item];
  if (role == Role::own_counter || role == Role::count) return {{slot.kind, label}};
  std::vector<CounterKey> keys;
  if (has_item_hours(role)) keys.push_back({slot.kind, label});
  if (has_amount(role)) keys.push_back({amount_kind(role), label});
  return keys;
}

}  // namespace

LiveCount::LiveCount(const MachineModel& model, LiveSettings settings, Instant begin)
    : settings_(std::move(settings)),
      begin_(begin),
      engine_(std::make_shared<const MachineModel>(model), with_days(settings_.counting), MeterUse::live),
      clocks_(model.items.size()),
      last_(model.items.size()),
      labels_(labels_of(model)) {
  for (std::size_t kind = 0; kind < machine_counters; ++kind) {
    const auto item = fill_of(model, settings_, static_cast<CounterKind>(kind));
    if (item) engine_.meter().fill_by(static_cast<CounterKind>(kind), *item);
  }
  put({mark_at(begin, Mark::window_begin), begin});
}

std::optional<Instant> LiveCount::take(std::span<const Observation> arrivals, Instant now) {
  std::optional<Instant> late;
  const std::size_t ordered = pending_.size();
  for (const Observation& arrival : arrivals) {
    const std::optional<Instant> missed = take_one(arrival);
    if (missed && (!late || *missed < *late)) late = missed;
  }
  order_all(ordered);
  release(now);
  return late;
}

bool LiveCount::is_repeat(const Observation& arrival) const {
  const std::optional<Observation>& last = last_[arrival.item];
  return last && last->at == arrival.at && is_same(last->value, arrival.value);
}

std::optional<Instant> LiveCount::take_one(const Observation& arrival) {
  if (is_repeat(arrival)) return {};
  Observation observation = arrival;
  if (!clocks_.pass(observation)) return {};
  if (!is_unknown(arrival.value) && (!newest_ || arrival.at > *newest_)) newest_ = arrival.at;
  if (observation.at < engine_.moment_at()) {
    if (last_[arrival.item]) return observation.at;
    observation.at = engine_.moment_at();
  }
  pending_.push_back({observation, arrival.at});
  return {};
}

void LiveCount::put(const Pending& pending) {
  const std::size_t ordered = pending_.size();
  pending_.push_back(pending);
  order_all(ordered);
}

// A few that came in order, as usual, are moved to their places without ado.
void LiveCount::order_all(std::size_t unordered_from) {
  constexpr std::size_t few = 64;
  const auto earlier = [](const Pending& a, const Pending& b) { return a.observation.at < b.observation.at; };
  if (pending_.size() - unordered_from > few) {
    std::stable_sort(pending_.begin(), pending_.end(), earlier);
    return;
  }
  for (std::size_t n = unordered_from; n < pending_.size(); ++n) {
    const auto one = pending_.begin() + static_cast<std::ptrdiff_t>(n);
    std::rotate(std::upper_bound(pending_.begin(), one, *one, earlier), one, one + 1);
  }
}

void LiveCount::release(Instant now) {
  if (!newest_) return;
  const Instant until = std::min(*newest_, now) - settings_.reorder;
  std::size_t count = 0;
  for (; count < pending_.size() && pending_[count].observation.at <= until; ++count) hand_on(pending_[count]);
  pending_.erase(pending_.begin(), pending_.begin() + static_cast<std::ptrdiff_t>(count));
  constexpr std::size_t many_unknowns = 4096;
  if (clocks_.remembered() > many_unknowns) clocks_.forget_before(engine_.moment_at() - clock_skew_max);
}

void LiveCount::hand_on(const Pending& pending) {
  const Observation& observation = pending.observation;
  if (observation.item < last_.size()) {
    last_[observation.item] = Observation{pending.stamped_at, observation.item, observation.value};
  }
  engine_.observe(observation);
}

std::optional<Instant> LiveCount::interrupt(Instant from, Instant to) {
  const Instant earliest = engine_.moment_at();
  if (to <= from) return {};
  put({mark_at(std::max(from, earliest), Mark::blind_begin), from});
  put({mark_at(std::max(to, earliest), Mark::blind_end), to});
  return from < earliest ? std::optional(from) : std::nullopt;
}

void LiveCount::alive_until(Instant time) { engine_.meter().hold_until(time); }

// Counts what waits, and then the time up to now. The count is of no more use after that.
void LiveCount::finish(Instant now) {
  for (const Pending& pending : pending_) {
    if (pending.observation.at <= now) hand_on(pending);
  }
  engine_.observe(mark_at(std::max(now, engine_.moment_at()), Mark::window_end));
  engine_.drain();
}

Snapshot LiveCount::snapshot(Instant now) const {
  LiveCount copy = *this;
  copy.finish(now);
  const Meter& meter = copy.engine_.meter();
  const auto silent_from = meter.silent_from();
  Snapshot snapshot{meter.now(), {}, {}};
  for (std::size_t slot = 0; slot < meter.slots().size(); ++slot) {
    if (!meter.is_present(slot)) continue;
    for (CounterKey& key : keys_of(meter.slots()[slot], model(), labels_)) {
      snapshot.totals.push_back({std::move(key), meter.total(slot), meter.today(slot),
                                 silent_from ? Truth::unknown : meter.state(slot),
                                 silent_from ? silent_from : meter.turned_at(slot)});
    }
  }
  snapshot.days = copy.changed_days();
  return snapshot;
}

void LiveCount::append_rows(std::vector<CounterDay>& rows, const DayTally& day) const {
  const Meter& meter = engine_.meter();
  for (CounterKey& key : keys_of(meter.slots()[day.counter], model(), labels_)) {
    const double amount = is_amount(key.kind) ? day.tally.amount : 0;
    rows.push_back(
        {day.date, std::move(key), day.tally.counted_ns(), day.tally.unknown_ns(), day.tally.filled_ns, amount});
  }
}

std::vector<CounterDay> LiveCount::rows_of(const std::vector<DayTally>& days) const {
  std::vector<CounterDay> rows;
  for (const DayTally& day : days) append_rows(rows, day);
  return rows;
}

// Days that are over as they come; of the open day the rows that are not as they were.
std::vector<CounterDay> LiveCount::changed_days() {
  std::vector<CounterDay> changed = rows_of(engine_.meter().take_days());
  std::vector<CounterDay> open = rows_of(engine_.meter().day_so_far());
  for (const CounterDay& row : open) {
    if (std::find(handed_out_.begin(), handed_out_.end(), row) == handed_out_.end()) changed.push_back(row);
  }
  handed_out_ = std::move(open);
  return changed;
}

}  // namespace hw::counters
