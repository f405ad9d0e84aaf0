#include "src/condition/use_rate.h"

#include "src/condition/series.h"

namespace hw::condition {
namespace {

Result<void> check_fills(std::span<const Fill> fills) {
  if (fills.size() < 2) return refuse(ErrorCode::bad_input, "at least 2 fills are needed, not {}", fills.size());
  for (std::size_t n = 0; n < fills.size(); ++n) {
    if (!(fills[n].amount > 0 && fills[n].amount <= series_value_max)) {
      return refuse(ErrorCode::bad_input, "amount[{}]: a fill is above 0, not {}", n, fills[n].amount);
    }
    HW_TRY(check_series({&fills[n].hours, 1}, "hours", 1));
    if (n > 0 && !(fills[n].hours > fills[n - 1].hours)) {
      return refuse(ErrorCode::bad_input, "hours[{}]: {} does not come after {}; the counter rises between fills", n,
                    fills[n].hours, fills[n - 1].hours);
    }
  }
  return {};
}

Result<void> find_trend(UseRates& rates, std::span<const double> middles) {
  if (rates.rates.size() < 3) return {};
  HW_TAKE(kendall, mann_kendall(middles, rates.rates));
  rates.trend = kendall;
  rates.p_one_sided = kendall.p_exact_one_sided.value_or(kendall.p_two_sided / 2);
  if (rates.p_one_sided <= rate_trend_p_max) rates.direction = kendall.S > 0 ? RateTrend::more : RateTrend::less;
  return {};
}

}  // namespace

Result<UseRates> use_rates(std::span<const Fill> fills) {
  HW_TRY(check_fills(fills));
  UseRates rates;
  std::vector<double> middles;
  double amount = 0;
  for (std::size_t n = 1; n < fills.size(); ++n) {
    rates.rates.push_back(fills[n].amount / (fills[n].hours - fills[n - 1].hours));
    middles.push_back((fills[n].hours + fills[n - 1].hours) / 2);
    amount += fills[n].amount;
  }
  rates.over_all = amount / (fills.back().hours - fills.front().hours);
  const std::vector<double> before(rates.rates.begin(), rates.rates.end() - 1);
  rates.last_against_rest = before.empty() ? 1 : rates.rates.back() / median_of(before);
  HW_TRY(find_trend(rates, middles));
  return rates;
}

std::string_view meaning_of(Consumable consumable, RateTrend direction) {
  if (direction == RateTrend::none_seen) return "";
  const bool is_less = direction == RateTrend::less;
  switch (consumable) {
    case Consumable::way_oil:
      return is_less
                 ? "less way oil than before: look for a clogged filter or metering valve, a weak pump or a lubricator "
                   "that is set lower; ways that run dry wear"
                 : "more way oil than before: look for a broken or loose line, a metering valve that stays open or a "
                   "lubricator that is set higher; it ends in the coolant";
    case Consumable::hydraulic_oil:
      return is_less
                 ? "less hydraulic oil than before: a leak was mended, or the level was read otherwise"
                 : "more hydraulic oil than before: it leaks; look at clamping cylinders, hoses and the rotary joint";
    case Consumable::coolant:
      return is_less ? "less coolant than before: less drag-out, or foreign oil or chips fill the tank"
                     : "more coolant than before: drag-out on chips, mist, evaporation or a leak";
    case Consumable::spindle_oil:
      return is_less ? "less spindle oil than before: look at the oil-air unit's pump, filter and lines at once"
                     : "more spindle oil than before: look for a leak at the unit or a dose that was set higher";
    case Consumable::other:
      break;
  }
  return is_less ? "less than before: what fed it may be blocked" : "more than before: it may leak";
}

}  // namespace hw::condition
