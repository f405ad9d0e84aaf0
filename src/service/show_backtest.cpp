#include <algorithm>

#include "src/due/backtest.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

constexpr int last_max = 50;
// The places of the shown chances between which the outcome is to be expected in 80 % of the cases.
constexpr std::size_t first_place = 1;
constexpr std::size_t last_place = 5;

BacktestRowView row_view(const due::HorizonScores& horizon) {
  BacktestRowView row{
      .horizon_days = horizon.horizon_days, .forecasts = 0, .inside80 = 0, .width_days = 0, .loss = 0, .naive = {}};
  for (const due::Score& score : horizon.scores) {
    if (score.method == "forecast") {
      row.forecasts = score.count;
      row.inside80 = score.inside;
      row.width_days = score.width_days;
      row.loss = score.pinball_days;
    } else if (score.method != "weekday bootstrap") {
      row.naive.push_back({score.method, score.pinball_days});
    }
  }
  return row;
}

bool is_inside(const due::PastForecast& forecast) {
  const auto& first = forecast.days[first_place];
  const auto& last = forecast.days[last_place];
  return first && *first <= forecast.outcome && (!last || forecast.outcome <= *last);
}

}  // namespace

Result<BacktestView> show_backtest(UseForecasts& forecasts, std::string_view machine, std::string_view counter,
                                   Instant now) {
  HW_TAKE(key, counters::parse_counter_key(counter));
  HW_TAKE(use, forecasts.of(machine, std::string{counter}, now));
  BacktestView view{.machine = std::string{machine},
                    .counter = std::string{counter},
                    .unit = std::string{counters::unit_of(key.kind)},
                    .days = static_cast<int>(use->history.days.size()),
                    .last = 0,
                    .last_inside80 = 0,
                    .refused = {},
                    .rows = {}};
  const auto tested = due::backtest(use->history);
  if (!tested) {
    view.refused = tested.error().message;
    view.refusal = tested.error().saying;
    return view;
  }
  for (const due::HorizonScores& horizon : tested->horizons) view.rows.push_back(row_view(horizon));
  const auto& made = tested->forecasts;
  view.last = static_cast<int>(std::min<std::size_t>(made.size(), last_max));
  view.last_inside80 = static_cast<int>(std::count_if(made.end() - view.last, made.end(), is_inside));
  return view;
}

}  // namespace hw::service
