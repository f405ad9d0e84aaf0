#include "src/due/reading_trend.h"

#include <algorithm>
#include <map>

#include "src/condition/series.h"

namespace hw::due {
namespace {

using condition::LimitSide;

bool are_alike(std::span<const double> values) {
  return std::all_of(values.begin(), values.end(), [&](double one) { return one == values.front(); });
}

double two_sided_p(const condition::MannKendall& kendall) {
  if (!kendall.p_exact_one_sided) return kendall.p_two_sided;
  return std::min(1.0, 2 * *kendall.p_exact_one_sided);
}

ReadingDirection direction_of(const ReadingTrend& trend) {
  const bool is_seen = trend.p <= trend_p_max && trend.sen.slope * static_cast<double>(trend.kendall.S) > 0;
  if (!is_seen) return ReadingDirection::none_seen;
  return trend.kendall.S > 0 ? ReadingDirection::rising : ReadingDirection::falling;
}

}  // namespace

std::vector<DatedReading> days_of(const std::vector<DatedReading>& readings) {
  std::map<LocalDate, std::vector<double>> by_day;
  for (const DatedReading& one : readings) by_day[one.on].push_back(one.value);
  std::vector<DatedReading> days;
  for (auto& [on, values] : by_day) days.push_back({on, condition::median_of(std::move(values))});
  if (days.size() > trend_days_max) days.erase(days.begin(), days.end() - trend_days_max);
  return days;
}

Result<ReadingTrend> trend_of(const std::vector<DatedReading>& days) {
  if (days.size() < crossing_readings_min) {
    return refuse(
        ErrorCode::bad_input,
        Saying{"reading-few",
               {},
               {{"count", static_cast<double>(days.size())}, {"least", static_cast<double>(crossing_readings_min)}}},
        "it was read on {} days; a trend needs {}", days.size(), crossing_readings_min);
  }
  std::vector<double> x, y;
  for (const DatedReading& one : days) {
    x.push_back(one.on - days.front().on);
    y.push_back(one.value);
  }
  if (are_alike(y)) {
    return refuse(ErrorCode::bad_input, Saying{"reading-alike", {}, {{"count", static_cast<double>(days.size())}}},
                  "all {} days have the same value; where nothing scatters, no trend can be told from chance",
                  days.size());
  }
  ReadingTrend trend;
  HW_TAKE(chart, condition::individuals_chart(y, condition::RangeConstant::exact_d2));
  HW_TAKE(sen, condition::sen_slope(x, y));
  HW_TAKE(kendall, condition::mann_kendall(x, y));
  trend.calls = condition::zone_calls(y, chart.mean, chart.sigma);
  trend.chart = std::move(chart);
  trend.sen = sen;
  trend.kendall = kendall;
  trend.p = two_sided_p(kendall);
  trend.direction = direction_of(trend);
  return trend;
}

std::vector<ReadingLimit> limits_of(const catalogue::TaskReading& reading) {
  std::vector<ReadingLimit> limits;
  const auto add = [&](const std::optional<double>& at, LimitKind kind, LimitSide side) {
    if (at) limits.push_back({kind, side, *at});
  };
  add(reading.action.min, LimitKind::action, LimitSide::below);
  add(reading.warning.min, LimitKind::warning, LimitSide::below);
  add(reading.warning.max, LimitKind::warning, LimitSide::above);
  add(reading.action.max, LimitKind::action, LimitSide::above);
  return limits;
}

bool is_beyond(const ReadingLimit& limit, double value) {
  return limit.side == LimitSide::above ? value > limit.at : value < limit.at;
}

}  // namespace hw::due
