#include "src/service/machine_count.h"

#include <algorithm>

#include "src/counters/packed.h"
#include "src/service/model_text.h"

namespace hw::service {
namespace {

using counters::CounterDay;
using counters::CounterKind;
using counters::CounterTotal;
using counters::LiveCount;
using counters::Observation;
using counters::Truth;

constexpr Duration silence_limit = Duration::seconds(60);

void add(CarriedAmount& sum, const CarriedAmount& more) {
  sum.counted_ns += more.counted_ns;
  sum.unknown_ns += more.unknown_ns;
  sum.filled_ns += more.filled_ns;
  sum.amount += more.amount;
}

CarriedAmount amount_of(const counters::Tally& tally) {
  return {tally.counted_ns(), tally.unknown_ns(), tally.filled_ns, tally.amount};
}

const CarriedAmount& find(const std::map<std::string, CarriedAmount>& amounts, const std::string& key) {
  static const CarriedAmount nothing;
  const auto found = amounts.find(key);
  return found == amounts.end() ? nothing : found->second;
}

const CounterTotal* find(const std::vector<CounterTotal>& totals, CounterKind kind) {
  const auto found = std::find_if(totals.begin(), totals.end(),
                                  [&](const auto& one) { return one.key.kind == kind && one.key.label.empty(); });
  return found == totals.end() ? nullptr : &*found;
}

// The furthest that the machine goes: cutting before running before turning before standing.
Doing doing_of(const std::vector<CounterTotal>& totals) {
  struct Row {
    CounterKind kind;
    Truth state;
    std::string_view says;
  };
  for (const Row& row :
       {Row{CounterKind::cutting, Truth::yes, "cutting"}, Row{CounterKind::operating, Truth::yes, "running"},
        Row{CounterKind::spindle, Truth::yes, "spindle turning"}, Row{CounterKind::powered, Truth::yes, "standing"},
        Row{CounterKind::powered, Truth::no, "off"}, Row{CounterKind::operating, Truth::no, "standing"}}) {
    const CounterTotal* total = find(totals, row.kind);
    if (total && total->state == row.state) return {std::string{row.says}, total->state_since};
  }
  const CounterTotal* operating = find(totals, CounterKind::operating);
  return {"not known", operating ? operating->state_since : std::nullopt};
}

LogPiece piece_of(std::span<const Observation> observations) {
  const auto [first, last] = std::minmax_element(observations.begin(), observations.end(),
                                                 [](const auto& a, const auto& b) { return a.at < b.at; });
  return {first->at, last->at, counters::pack(observations)};
}

}  // namespace

counters::LiveSettings live_settings(const Zone& zone, const std::map<std::string, std::string>& fills) {
  counters::LiveSettings settings;
  settings.counting.zone = zone;
  settings.counting.silence_limit = silence_limit;
  for (const auto& [counter, item] : fills) {
    if (const auto key = counters::parse_counter_key(counter)) settings.fills[key->kind] = item;
  }
  return settings;
}

MachineCount::MachineCount(Zone zone, const std::map<std::string, std::string>& fills)
    : settings_(live_settings(zone, fills)) {}

Result<void> MachineCount::restore(const CountingRecord& record) {
  HW_TAKE(model, parse_model(record.model));
  HW_TAKE(state, parse_machine_state(record.state));
  HW_TAKE(live, LiveCount::restore(model, settings_, state.live));
  live_.emplace(std::move(live));
  relevant_.emplace(model, settings_.counting);
  if (!relevant_->restore(state.relevant)) {
    return refuse(ErrorCode::corrupt, "the stored count of {} does not say what was left out of its log", model.name);
  }
  carried_ = std::move(state.carried);
  late_from_ = state.late_from;
  checkpoint_on_ = settings_.counting.zone.date_of(live_->settled_until());  // it was kept with the state of that day
  return {};
}

void MachineCount::set_model(const counters::MachineModel& model, Instant now) {
  if (live_ && live_->model() == model) return;
  if (live_) {
    const counters::Snapshot last = live_->snapshot(now);
    collect_days(last.days);
    const LocalDate today = settings_.counting.zone.date_of(now);
    if (carried_.day != today) carried_.of_day.clear();
    carried_.day = today;
    for (const CounterTotal& total : last.totals) {
      add(carried_.totals[print(total.key)], amount_of(total.tally));
      add(carried_.of_day[print(total.key)], amount_of(total.today));
    }
  }
  if (!carried_.since) carried_.since = now;
  live_.emplace(model, settings_, now);
  relevant_.emplace(model, settings_.counting);
  checkpoint_on_.reset();  // what comes is to be read with this model
  late_from_.reset();      // and what came before, no longer
  ++news_;
}

void MachineCount::take(std::span<const Observation> observations, Instant now) {
  if (!live_ || observations.empty()) return;
  if (const auto late = live_->take(observations, now)) late_from_ = std::min(late_from_.value_or(*late), *late);
  std::vector<Observation> kept;
  for (const Observation& one : observations) relevant_->pass(one, kept);
  if (!kept.empty()) log_.push_back(piece_of(kept));
  ++news_;
}

void MachineCount::alive_until(Instant time) {
  if (!live_) return;
  live_->alive_until(time);
  ++news_;
}

CounterNow MachineCount::counter_now(const CounterTotal& total, Instant now) const {
  const std::string key = print(total.key);
  CarriedAmount sum = amount_of(total.tally);
  add(sum, find(carried_.totals, key));
  CarriedAmount today = amount_of(total.today);
  if (carried_.day == settings_.counting.zone.date_of(now)) add(today, find(carried_.of_day, key));
  const bool is_amount = counters::is_amount(total.key.kind);
  CounterNow out{.key = total.key};
  out.counted = is_amount ? sum.amount : Duration{sum.counted_ns}.as_hours();
  out.filled = Duration{sum.filled_ns}.as_hours();
  out.unknown_h = Duration{sum.unknown_ns}.as_hours();
  out.today = is_amount ? today.amount : Duration{today.counted_ns + today.filled_ns}.as_hours();
  out.today_unknown_h = Duration{today.unknown_ns}.as_hours();
  return out;
}

// Counters that the model of before had and this one has not, or not yet: an item counts from when it is first known.
void MachineCount::add_carried(std::vector<CounterNow>& counters, Instant now) const {
  for (const auto& [key, amount] : carried_.totals) {
    const auto parsed = counters::parse_counter_key(key);
    const auto has_key = [&](const CounterNow& one) { return one.key == *parsed; };
    if (!parsed || std::any_of(counters.begin(), counters.end(), has_key)) continue;
    counters.push_back(counter_now({.key = *parsed, .tally = {}, .today = {}, .state_since = {}}, now));
  }
}

MachineNow MachineCount::at(Instant now) const {
  MachineNow out;
  if (!live_) return out;
  const auto totals = live_->snapshot(now).totals;
  for (const CounterTotal& total : totals) out.counters.push_back(counter_now(total, now));
  add_carried(out.counters, now);
  out.doing = doing_of(totals);
  return out;
}

std::optional<Instant> MachineCount::counting_since() const { return carried_.since; }

DayRecord MachineCount::with_carried(const CounterDay& day) const {
  CarriedAmount sum{day.counted_ns, day.unknown_ns, day.filled_ns, day.amount};
  if (carried_.day == day.date) add(sum, find(carried_.of_day, print(day.key)));
  return {day.date, sum.counted_ns, sum.unknown_ns, sum.filled_ns, sum.amount};
}

void MachineCount::collect_days(const std::vector<CounterDay>& days) {
  for (const CounterDay& day : days) days_[{print(day.key), day.date}] = with_carried(day);
}

std::map<LocalDate, DayRecord> MachineCount::unsaved_days(const std::string& counter, Instant now) const {
  std::map<LocalDate, DayRecord> rows;
  for (const auto& [key, day] : days_) {
    if (key.first == counter) rows[day.on] = day;
  }
  if (!live_) return rows;
  for (const CounterDay& day : live_->snapshot(now).days) {
    if (print(day.key) == counter) rows[day.date] = with_carried(day);
  }
  return rows;
}

std::optional<CountingStep::Machine> MachineCount::unsaved(const std::string& machine) {
  if (!live_ || news_ == saved_news_) return std::nullopt;
  collect_days(live_->changed_days());
  CountingStep::Machine part{.record = {machine, print_model(live_->model()),
                                        print(MachineState{carried_, late_from_, relevant_->save(), live_->save()})},
                             .changed_days = {},
                             .log = log_,
                             .checkpoint_on = {}};
  for (const auto& [key, day] : days_) {
    if (part.changed_days.empty() || part.changed_days.back().counter != key.first) {
      part.changed_days.push_back({key.first, {}});
    }
    part.changed_days.back().days.push_back(day);
  }
  const LocalDate today = settings_.counting.zone.date_of(live_->settled_until());
  if (checkpoint_on_ != today) part.checkpoint_on = today;
  offered_news_ = news_;
  return part;
}

void MachineCount::keep_passed_over() {
  std::vector<Observation> kept;
  relevant_->flush(kept);
  if (!kept.empty()) log_.push_back(piece_of(kept));
}

void MachineCount::saved(const CountingStep::Machine& part) {
  saved_news_ = offered_news_;
  log_.erase(log_.begin(), log_.begin() + static_cast<std::ptrdiff_t>(part.log.size()));
  for (const CounterDays& counter : part.changed_days) {
    for (const DayRecord& day : counter.days) {
      const auto there = days_.find({counter.counter, day.on});
      if (there != days_.end() && there->second == day) days_.erase(there);
    }
  }
  if (part.checkpoint_on) checkpoint_on_ = part.checkpoint_on;
}

Result<void> MachineCount::recount_late(Store& store, const std::string& machine, Instant now) {
  if (!late_from_) return {};
  keep_passed_over();  // the log has to tell all that has been counted
  HW_TAKE(recounted, recounted_from(store, machine, *late_from_, now));
  late_from_.reset();
  ++news_;
  if (recounted) live_ = std::move(recounted);  // else it is from before everything that was kept
  return {};
}

// The newest state that is older than `late`, and everything that has arrived since, now in order of time.
Result<std::optional<LiveCount>> MachineCount::recounted_from(Store& store, const std::string& machine, Instant late,
                                                              Instant now) const {
  HW_TAKE(earlier, checkpoint_before(store, machine, late));
  if (!earlier) return std::optional<LiveCount>{};
  HW_TAKE(arrivals, logged_since(store, machine, earlier->checkpoint_on));
  // Where the feed was silent the log says so itself: everything else is known to have been told.
  if (const auto told = live_->told_until()) earlier->live.alive_until(*told);
  earlier->live.take(arrivals, now);
  return std::optional{std::move(earlier->live)};
}

}  // namespace hw::service
