#include <boost/describe/class.hpp>
#include <boost/describe/enum.hpp>

#include "libs/formats/json.h"
#include "src/terminal/condition_answers.h"
#include "src/terminal/series_file.h"

namespace hw::condition {

BOOST_DESCRIBE_ENUM(RateTrend, none_seen, less, more)

}  // namespace hw::condition

namespace hw::terminal {
namespace {

struct RateView {
  std::vector<double> rates;
  double over_all = 0, last_against_rest = 0;
  condition::RateTrend trend = condition::RateTrend::none_seen;
  double p_one_sided = 0;
  std::string means;
};
BOOST_DESCRIBE_STRUCT(RateView, (), (rates, over_all, last_against_rest, trend, p_one_sided, means))

std::string print_rates(const RateView& view) {
  std::string text = fmt::format("over all {:.6g} an hour; the last {:.6g}, {:.2f} times the median before\n",
                                 view.over_all, view.rates.back(), view.last_against_rest);
  if (view.trend == condition::RateTrend::none_seen) {
    return text + fmt::format("no trend seen (one-sided p {:.3g})\n", view.p_one_sided);
  }
  return text + fmt::format("{} (one-sided p {:.3g})\n", view.means, view.p_one_sided);
}

}  // namespace

Answer rate_answer(const ConditionCall& call) {
  HW_TAKE(table, read_series_table(call.file));
  HW_TRY(check_columns(table, {"hours", "amount"}));
  HW_TAKE(hours_column, table.column("hours"));
  HW_TAKE(amount_column, table.column("amount"));
  HW_TAKE(hours, numbers_of(table, hours_column));
  HW_TAKE(amounts, numbers_of(table, amount_column));
  std::vector<condition::Fill> fills;
  for (std::size_t n = 0; n < hours.size(); ++n) fills.push_back({hours[n], amounts[n]});
  HW_TAKE(rates, condition::use_rates(fills));
  const RateView view{rates.rates,     rates.over_all,    rates.last_against_rest,
                      rates.direction, rates.p_one_sided, std::string(meaning_of(call.consumable, rates.direction))};
  return Said(call.is_json ? formats::print_json(view) + "\n" : print_rates(view));
}

}  // namespace hw::terminal
