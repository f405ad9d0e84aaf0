#include "src/simulate/demo_use.h"

#include <algorithm>
#include <numeric>

#include "src/counters/counter_key.h"

namespace hw::simulate {
namespace {

double amount_of(const service::DayRecord& day, const std::string& counter) {
  const auto key = counters::parse_counter_key(counter);
  if (key && counters::is_amount(key->kind)) return day.amount;
  return Duration{day.counted_ns + day.filled_ns}.as_hours();
}

}  // namespace

DemoUse::DemoUse(service::CounterTotals totals, const std::vector<service::CounterDays>& days, LocalDate today,
                 int history_days)
    : totals_(std::move(totals)) {
  for (const auto& counter : days) {
    auto& daily = daily_[counter.counter];
    daily.resize(static_cast<std::size_t>(history_days) + 1);
    for (const auto& day : counter.days) {
      const int ago = today - day.on;
      if (ago >= 0 && ago <= history_days) daily[static_cast<std::size_t>(ago)] += amount_of(day, counter.counter);
    }
  }
}

double DemoUse::risen(const std::string& counter, double days) const {
  const auto found = daily_.find(counter);
  if (found == daily_.end()) return 0;
  const auto& daily = found->second;
  double sum = 0;
  double left = days;
  for (std::size_t i = 0; i < daily.size() && left > 0; ++i, left -= 1) sum += daily[i] * std::min(1.0, left);
  const double mean = std::accumulate(daily.begin(), daily.end(), 0.0) / static_cast<double>(daily.size());
  return sum + mean * std::max(0.0, left);
}

service::CounterTotals DemoUse::totals_ago(double days) const {
  service::CounterTotals out;
  for (const auto& [counter, total] : totals_) out[counter] = std::max(0.0, total - risen(counter, days));
  return out;
}

double DemoUse::days_since(const std::string& counter, double amount) const {
  double low = 0, high = days_max;
  if (risen(counter, high) < amount) return days_max;
  while (high - low > 0.02) {
    const double middle = (low + high) / 2;
    (risen(counter, middle) < amount ? low : high) = middle;
  }
  return high;
}

}  // namespace hw::simulate
