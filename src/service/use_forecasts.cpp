#include "src/service/use_forecasts.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "src/service/counter_days.h"

namespace hw::service {
namespace {

constexpr std::int64_t unusual_unknown_ns = 4LL * 3600 * 1'000'000'000;

std::int64_t median_unknown_ns(const std::vector<DayRecord>& days) {
  std::vector<std::int64_t> unknown;
  for (const DayRecord& day : days) unknown.push_back(day.unknown_ns);
  const auto middle = unknown.begin() + static_cast<std::ptrdiff_t>(unknown.size() / 2);
  std::nth_element(unknown.begin(), middle, unknown.end());
  return *middle;
}

// A day has 25 h at most, but for the nanoseconds that sums of doubles are off by.
double used_on(const DayRecord& day, bool is_amount) {
  return is_amount ? std::max(0.0, day.amount) : Duration{day.counted_ns + day.filled_ns}.as_hours();
}

int known_days_of(const due::UseHistory& history) { return static_cast<int>(history.days.size()); }

double mean_of(const due::UseHistory& history) {
  double sum = 0;
  for (const due::UseDay& day : history.days) sum += day.used;
  return sum / known_days_of(history);
}

// The mean of the lenders' means, and how much they differ from each other; a single lender says little about the
// next machine, so the spread is never below half the mean.
std::optional<due::LentUse> lent_by(const std::vector<due::UseHistory>& lenders) {
  std::vector<double> means;
  for (const auto& lender : lenders) means.push_back(mean_of(lender));
  const double mean = std::accumulate(means.begin(), means.end(), 0.0) / static_cast<double>(means.size());
  if (mean <= 0) return std::nullopt;
  double squares = 0;
  for (const double one : means) squares += (one - mean) * (one - mean);
  const double differ = means.size() > 1 ? std::sqrt(squares / static_cast<double>(means.size() - 1)) : 0;
  due::LentUse lent{.per_day = mean, .spread = std::max(differ, mean / 2)};
  due::WeekdayShares sums{};
  for (const auto& lender : lenders) {
    const auto past = due::arrange(lender);
    if (!past) continue;
    const auto pattern = due::learn_weekdays(*past, nullptr);
    for (std::size_t i = 0; i < sums.size(); ++i) sums[i] += pattern.shares[i];
  }
  const double all = std::accumulate(sums.begin(), sums.end(), 0.0);
  if (all <= 0) return std::nullopt;
  for (std::size_t i = 0; i < sums.size(); ++i) lent.shares[i] = sums[i] * 7 / all;
  return lent;
}

bool has_use(const due::UseHistory& history) {
  return std::any_of(history.days.begin(), history.days.end(), [](const auto& day) { return day.used > 0; });
}

}  // namespace

std::vector<due::UseDay> known_use(const std::vector<DayRecord>& days, bool is_amount) {
  std::vector<due::UseDay> known;
  if (days.empty()) return known;
  const std::int64_t unknown_max_ns = median_unknown_ns(days) + unusual_unknown_ns;
  for (const DayRecord& day : days) {
    if (day.unknown_ns <= unknown_max_ns) known.push_back({day.on, used_on(day, is_amount)});
  }
  return known;
}

bool UseForecasts::is_fresh(const Kept& kept, const OpenMachine& machine, LocalDate today) const {
  if (kept.use->history.start != today || kept.past_version != machine.past_version) return false;
  if (kept.use_changes_version != shop_.use_changes_version()) return false;
  return kept.is_past_told || kept.counts_version == machine.counts_version;
}

Result<due::UseHistory> UseForecasts::read_history(std::string_view machine, const std::string& counter,
                                                   Instant now) const {
  HW_TAKE(key, counters::parse_counter_key(counter));
  const LocalDate today = shop_.calendar().zone.date_of(now);
  HW_TAKE(days, days_of(shop_, machine, counter, {today - history_days, today - 1}, now));
  const bool is_amount = counters::is_amount(key.kind);
  due::UseHistory history{.start = today, .days = known_use(days, is_amount), .closed = {}};
  history.unit = is_amount ? due::UseUnit::any : due::UseUnit::hours;
  for (const auto& closed : shop_.calendar().closed) history.closed.push_back(closed.on);
  return history;
}

Result<std::optional<due::LentUse>> UseForecasts::lent_to(std::string_view machine, const std::string& counter,
                                                          Instant now, std::vector<std::string>& lenders) const {
  HW_TAKE(borrower, shop_.find(machine));
  std::vector<due::UseHistory> of_cell;
  std::vector<due::UseHistory> of_kind;
  std::vector<std::string> cell_keys;
  std::vector<std::string> kind_keys;
  for (const auto& other : shop_.machines()) {
    const catalogue::Machine& what = other->record.machine;
    if (what.key == machine || what.kind != borrower->record.machine.kind) continue;
    HW_TAKE(history, read_history(what.key, counter, now));
    if (known_days_of(history) < lending_days || !has_use(history)) continue;
    if (what.cell == borrower->record.machine.cell) {
      of_cell.push_back(history);
      cell_keys.push_back(what.key);
    }
    of_kind.push_back(std::move(history));
    kind_keys.push_back(what.key);
  }
  lenders = of_cell.empty() ? kind_keys : cell_keys;
  if (of_kind.empty()) return std::optional<due::LentUse>{};
  return lent_by(of_cell.empty() ? of_kind : of_cell);
}

Result<UseForecasts::Kept> UseForecasts::learn(const OpenMachine& machine, const std::string& counter,
                                               Instant now) const {
  Kept kept;
  std::vector<UseChange> changes;
  {
    const auto lock = shop_.look();
    kept.past_version = machine.past_version;
    kept.counts_version = machine.counts_version;
    kept.use_changes_version = shop_.use_changes_version();
    changes = changes_for(shop_.use_changes(), machine.record.machine.key);
    const auto day_began_at = shop_.calendar().zone.begin_of(shop_.calendar().zone.date_of(now));
    kept.is_past_told = machine.feed.last_sign_at && *machine.feed.last_sign_at >= day_began_at;
  }
  const std::string& key = machine.record.machine.key;
  HW_TAKE(history, read_history(key, counter, now));
  CounterUse use{.history = std::move(history), .counted = {}, .forecast = {}, .refused = {}, .lent_by = {}};
  use.counted = std::exchange(use.history.days, {});
  use.history.days = ordinary_use(use.counted, changes);
  due::ForecastOptions options;
  for (const UseChange& one : changes) options.changes.push_back({one.from, one.factor, {}, one.until});
  if (known_days_of(use.history) < lending_days) {
    HW_TAKE(lent, lent_to(key, counter, now, use.lent_by));
    options.lent = lent;
  }
  auto forecast = due::UseForecast::prepare(use.history, options);
  if (forecast) {
    use.forecast = std::move(*forecast);
  } else {
    use.refused = forecast.error();
  }
  kept.use = std::make_shared<const CounterUse>(std::move(use));
  return kept;
}

Result<std::shared_ptr<const CounterUse>> UseForecasts::of(std::string_view machine, const std::string& counter,
                                                           Instant now) {
  HW_TAKE(found, shop_.find(machine));
  const std::pair place{std::string{machine}, counter};
  {
    const auto lock = shop_.look();
    const std::lock_guard turn(mutex_);
    const auto there = kept_.find(place);
    if (there != kept_.end() && is_fresh(there->second, *found, shop_.calendar().zone.date_of(now))) {
      return there->second.use;
    }
  }
  HW_TAKE(kept, learn(*found, counter, now));
  const std::lock_guard turn(mutex_);
  ++learned_;
  return (kept_[place] = std::move(kept)).use;
}

std::size_t UseForecasts::learned() const {
  const std::lock_guard turn(mutex_);
  return learned_;
}

}  // namespace hw::service
