#include <cmath>

#include "libs/formats/json.h"
#include "src/kits/lot_size.h"
#include "src/kits/newsvendor.h"
#include "src/kits/stock_level.h"
#include "src/terminal/kits_stock.h"

namespace hw::terminal {
namespace {

using formats::JsonPlace;
using Tree = boost::json::value;

constexpr std::string_view no_stock_out = "no stock-out in the lead time: P(D <= s)";
constexpr std::string_view fill_rate =
    "fill rate, the share of demands met at once, ordered one for one: P(D <= S - 1)";
constexpr std::string_view in_period = "no stock-out in the period: P(D <= S)";
constexpr std::string_view fill_rate_of_lots =
    "fill rate, the share of demands met at once: mean of P(D <= y - 1), y = r+1 .. r+Q";
constexpr std::size_t ages_max = 20000;

// A field with its value, and what that has to be.
struct Given {
  std::string_view name;
  double value;
};

Result<void> check_given(const JsonPlace& place, const Given& given, bool is_right, std::string_view right) {
  if (is_right) return {};
  return refuse(JsonPlace{&place, given.name, {}}.error(fmt::format("{} is not {}", given.value, right)));
}
Result<void> given_above_zero(const JsonPlace& place, const Given& given) {
  return check_given(place, given, given.value > 0 && given.value <= 1e15, "above 0 and up to 1e15");
}
Result<void> at_least_zero(const JsonPlace& place, const Given& given) {
  return check_given(place, given, given.value >= 0 && given.value <= 1e15, "at least 0 and up to 1e15");
}
Result<void> a_mean(const JsonPlace& place, const Given& given) {
  return check_given(place, given, given.value >= 0 && given.value <= 1e8, "a mean demand, from 0 to 1e8");
}
Result<void> a_chance(const JsonPlace& place, const Given& given) {
  return check_given(place, given, given.value > 0 && given.value < 1, "a chance between 0 and 1");
}

std::int64_t whole(double number) { return std::llround(number); }

template <class View>
CaseAnswer answer_of(const View& view, std::string text) {
  return {formats::print_json(view), std::move(text)};
}

struct LevelCase {
  double mean = 0, p = 0;
};
BOOST_DESCRIBE_STRUCT(LevelCase, (), (mean, p))

struct PartsCase {
  double n_parts = 0, mtbf_h = 0, use_h_per_day = 0, lead_days = 0, p = 0;
};
BOOST_DESCRIBE_STRUCT(PartsCase, (), (n_parts, mtbf_h, use_h_per_day, lead_days, p))

struct LevelView {
  double mean = 0;
  std::int64_t s_no_stockout = 0;
  double achieved = 0;
  std::int64_t s_fill_rate = 0;
  double fill_rate_achieved = 0, ebo_at_s = 0, mean_on_hand_at_s = 0;
  std::string s_measure{no_stock_out}, s_fill_rate_measure{fill_rate};
};
BOOST_DESCRIBE_STRUCT(LevelView, (),
                      (mean, s_no_stockout, achieved, s_fill_rate, fill_rate_achieved, ebo_at_s, mean_on_hand_at_s,
                       s_measure, s_fill_rate_measure))

struct LevelAnswer : LevelView {
  double p = 0;
};
BOOST_DESCRIBE_STRUCT(LevelAnswer, (LevelView), (p))

struct PartsAnswer : PartsCase, LevelView {};
BOOST_DESCRIBE_STRUCT(PartsAnswer, (PartsCase, LevelView), ())

LevelView level_view(double mean, double p) {
  const kits::BaseStock stock = kits::base_stock(mean, p);
  LevelView view;
  view.mean = mean;
  view.s_no_stockout = whole(stock.s_no_stockout);
  view.achieved = stock.achieved;
  view.s_fill_rate = whole(stock.s_fill_rate);
  view.fill_rate_achieved = stock.fill_rate_achieved;
  view.ebo_at_s = stock.ebo_at_s;
  view.mean_on_hand_at_s = stock.mean_on_hand_at_s;
  return view;
}

std::string print_level(const LevelView& view, double p) {
  return fmt::format(
      "mean demand in the lead time {:.6g}, wanted {:g} %\n"
      "  s = {}: {:.6g} % {}\n"
      "  S = {}: {:.6g} % {}\n"
      "  with s: {:.6g} owed and {:.6g} on hand, on average\n",
      view.mean, 100 * p, view.s_no_stockout, 100 * view.achieved, no_stock_out, view.s_fill_rate,
      100 * view.fill_rate_achieved, fill_rate, view.ebo_at_s, view.mean_on_hand_at_s);
}

struct PeriodCase {
  double h = 0, b = 0, mean = 0;
  std::optional<double> sd;
};
BOOST_DESCRIBE_STRUCT(PeriodCase, (), (h, b, mean, sd))

struct PeriodView {
  double critical_ratio = 0, S = 0, cost = 0, achieved = 0;
  std::string demand, S_measure{in_period};
};
BOOST_DESCRIBE_STRUCT(PeriodView, (), (critical_ratio, S, cost, achieved, demand, S_measure))

struct ReorderCase {
  double h = 0, p = 0, K = 0, lam = 0, L = 0;
};
BOOST_DESCRIBE_STRUCT(ReorderCase, (), (h, p, K, lam, L))

struct ReorderView {
  double lead_time_mean = 0;
  std::int64_t r = 0, Q = 0;
  double cost = 0, fill_rate = 0;
  std::string fill_rate_measure{fill_rate_of_lots};
};
BOOST_DESCRIBE_STRUCT(ReorderView, (), (lead_time_mean, r, Q, cost, fill_rate, fill_rate_measure))

struct QuantityCase {
  double K = 0, lam = 0, h = 0;
};
BOOST_DESCRIBE_STRUCT(QuantityCase, (), (K, lam, h))

struct QuantityView {
  double Q = 0, cost = 0;
};
BOOST_DESCRIBE_STRUCT(QuantityView, (), (Q, cost))

struct UncertainCase {
  double shape = 0, T = 0, L = 0, p = 0;
};
BOOST_DESCRIBE_STRUCT(UncertainCase, (), (shape, T, L, p))

struct UncertainView {
  double mean = 0;
  std::int64_t s = 0;
  double achieved = 0;
  std::int64_t poisson_s = 0;
  std::string s_measure{no_stock_out};
};
BOOST_DESCRIBE_STRUCT(UncertainView, (), (mean, s, achieved, poisson_s, s_measure))

struct AgesCase {
  double beta = 0, eta = 0;
  std::vector<double> ages;
  double x = 0, p = 0;
};
BOOST_DESCRIBE_STRUCT(AgesCase, (), (beta, eta, ages, x, p))

struct AgesView {
  std::vector<double> fail_prob;
  double expected = 0;
  std::vector<double> pmf;
  std::int64_t s = 0;
  double achieved = 0;
  std::string s_measure{no_stock_out};
};
BOOST_DESCRIBE_STRUCT(AgesView, (), (fail_prob, expected, pmf, s, achieved, s_measure))

}  // namespace

Result<CaseAnswer> stock_level_case(const Tree& tree, const JsonPlace& place) {
  HW_TAKE(given, read_case<LevelCase>(tree, place));
  HW_TRY(a_mean(place, {"mean", given.mean}));
  HW_TRY(a_chance(place, {"p", given.p}));
  LevelAnswer answer;
  static_cast<LevelView&>(answer) = level_view(given.mean, given.p);
  answer.p = given.p;
  return answer_of(answer, print_level(answer, given.p));
}

Result<CaseAnswer> stock_parts_case(const Tree& tree, const JsonPlace& place) {
  HW_TAKE(given, read_case<PartsCase>(tree, place));
  HW_TRY(at_least_zero(place, {"n_parts", given.n_parts}));
  HW_TRY(given_above_zero(place, {"mtbf_h", given.mtbf_h}));
  HW_TRY(check_given(place, {"use_h_per_day", given.use_h_per_day},
                     given.use_h_per_day >= 0 && given.use_h_per_day <= 24, "hours of a day, from 0 to 24"));
  HW_TRY(at_least_zero(place, {"lead_days", given.lead_days}));
  HW_TRY(a_chance(place, {"p", given.p}));
  const double mean = kits::lead_time_demand({given.n_parts, given.mtbf_h, given.use_h_per_day, given.lead_days});
  if (mean > 1e8) return refuse(place.error(fmt::format("a mean demand of {:g} comes out; up to 1e8 is right", mean)));
  PartsAnswer answer;
  static_cast<PartsCase&>(answer) = given;
  static_cast<LevelView&>(answer) = level_view(mean, given.p);
  return answer_of(answer, print_level(answer, given.p));
}

Result<CaseAnswer> stock_period_case(const Tree& tree, const JsonPlace& place) {
  HW_TAKE(given, read_case<PeriodCase>(tree, place));
  HW_TRY(given_above_zero(place, {"h", given.h}));
  HW_TRY(given_above_zero(place, {"b", given.b}));
  const kits::PeriodCosts costs{given.h, given.b};
  kits::PeriodStock stock;
  if (given.sd) {
    HW_TRY(check_given(place, {"mean", given.mean}, std::abs(given.mean) <= 1e15, "a mean demand up to 1e15"));
    HW_TRY(at_least_zero(place, {"sd", *given.sd}));
    stock = kits::newsvendor_normal(costs, given.mean, *given.sd);
  } else {
    HW_TRY(a_mean(place, {"mean", given.mean}));
    stock = kits::newsvendor_poisson(costs, given.mean);
  }
  PeriodView view;
  view.critical_ratio = kits::critical_ratio(costs);
  view.S = stock.level;
  view.cost = stock.cost;
  view.achieved = stock.no_stock_out;
  view.demand = given.sd ? "normal" : "Poisson";
  return answer_of(
      view, fmt::format("{} demand: S = {:.10g}, cost {:.6g}\n  {:.6g} % {}; critical ratio {:.6g}\n", view.demand,
                        view.S, view.cost, 100 * view.achieved, in_period, view.critical_ratio));
}

Result<CaseAnswer> stock_reorder_case(const Tree& tree, const JsonPlace& place) {
  HW_TAKE(given, read_case<ReorderCase>(tree, place));
  HW_TRY(given_above_zero(place, {"h", given.h}));
  HW_TRY(given_above_zero(place, {"p", given.p}));
  HW_TRY(at_least_zero(place, {"K", given.K}));
  HW_TRY(given_above_zero(place, {"lam", given.lam}));
  HW_TRY(at_least_zero(place, {"L", given.L}));
  const double mean = given.lam * given.L;
  if (mean > 1e6) return refuse(place.error(fmt::format("lam L is {:g}; a mean demand up to 1e6 is right", mean)));
  const auto policy = kits::best_reorder_policy({given.h, given.p, given.K, given.lam, given.L});
  if (!policy) return refuse(place.error(policy.error().message));
  const ReorderView view{.lead_time_mean = policy->lead_time_mean,
                         .r = whole(policy->reorder_at),
                         .Q = whole(policy->lot),
                         .cost = policy->cost_rate,
                         .fill_rate = policy->fill_rate};
  return answer_of(
      view, fmt::format("order {} when stock and orders fall to {}: {:.6g} per unit of time\n  {:.6g} % {}\n", view.Q,
                        view.r, view.cost, 100 * view.fill_rate, fill_rate_of_lots));
}

Result<CaseAnswer> stock_quantity_case(const Tree& tree, const JsonPlace& place) {
  HW_TAKE(given, read_case<QuantityCase>(tree, place));
  HW_TRY(given_above_zero(place, {"K", given.K}));
  HW_TRY(given_above_zero(place, {"lam", given.lam}));
  HW_TRY(given_above_zero(place, {"h", given.h}));
  const kits::OrderQuantity order = kits::economic_quantity(given.K, given.lam, given.h);
  const QuantityView view{order.quantity, order.cost_rate};
  return answer_of(view, fmt::format("order {:.8g} at once: {:.8g} per unit of time (certain, even demand; nothing is "
                                     "ever missing)\n",
                                     view.Q, view.cost));
}

Result<CaseAnswer> stock_uncertain_case(const Tree& tree, const JsonPlace& place) {
  HW_TAKE(given, read_case<UncertainCase>(tree, place));
  HW_TRY(given_above_zero(place, {"shape", given.shape}));
  HW_TRY(given_above_zero(place, {"T", given.T}));
  HW_TRY(at_least_zero(place, {"L", given.L}));
  HW_TRY(a_chance(place, {"p", given.p}));
  const double mean = given.shape * given.L / given.T;
  if (!(mean <= 1e8))
    return refuse(place.error(fmt::format("a mean demand of {:g} comes out; up to 1e8 is right", mean)));
  const kits::UncertainStock stock = kits::stock_for_uncertain_rate(given.shape, given.T, given.L, given.p);
  const UncertainView view{
      .mean = stock.mean, .s = whole(stock.s), .achieved = stock.achieved, .poisson_s = whole(stock.poisson_s)};
  return answer_of(view,
                   fmt::format("mean demand {:.6g}, the rate uncertain\n  s = {}: {:.6g} % {}\n  with the rate taken "
                               "as known: {}\n",
                               view.mean, view.s, 100 * view.achieved, no_stock_out, view.poisson_s));
}

Result<CaseAnswer> stock_ages_case(const Tree& tree, const JsonPlace& place) {
  HW_TAKE(given, read_case<AgesCase>(tree, place));
  HW_TRY(check_given(place, {"beta", given.beta}, given.beta > 0 && given.beta <= 1000, "above 0 and up to 1000"));
  HW_TRY(given_above_zero(place, {"eta", given.eta}));
  HW_TRY(at_least_zero(place, {"x", given.x}));
  HW_TRY(a_chance(place, {"p", given.p}));
  const JsonPlace ages{&place, "ages", {}};
  if (given.ages.size() > ages_max) return refuse(ages.error(fmt::format("up to {} ages are right", ages_max)));
  for (std::size_t n = 0; n < given.ages.size(); ++n) {
    if (given.ages[n] >= 0 && given.ages[n] <= 1e15) continue;
    return refuse(JsonPlace{&ages, {}, n}.error(fmt::format("{} is no age; right is 0 or more", given.ages[n])));
  }
  kits::AgedStock stock = kits::stock_for_known_ages({given.beta, given.eta}, given.ages, given.x, given.p);
  AgesView view;
  view.fail_prob = std::move(stock.fail_prob);
  view.expected = stock.expected;
  view.pmf = std::move(stock.pmf);
  view.s = whole(stock.s);
  view.achieved = stock.achieved;
  return answer_of(
      view, fmt::format("{} parts, {:.6g} failures expected within {:g}\n  s = {}: {:.6g} % {}\n", given.ages.size(),
                        view.expected, given.x, view.s, 100 * view.achieved, no_stock_out));
}

}  // namespace hw::terminal
