#include <boost/describe/class.hpp>
#include <boost/describe/enum.hpp>

#include "libs/formats/json.h"
#include "src/condition/count_chart.h"
#include "src/condition/individuals_chart.h"
#include "src/condition/subgroup_chart.h"
#include "src/condition/zone_rules.h"
#include "src/terminal/condition_answers.h"
#include "src/terminal/series_file.h"

namespace hw::condition {

BOOST_DESCRIBE_STRUCT(IndividualsChart, (), (mean, mr_bar, sigma, ucl, lcl, mr_ucl, out, mr_out))
BOOST_DESCRIBE_STRUCT(CountChart, (), (cbar, ucl, lcl, out))
BOOST_DESCRIBE_STRUCT(ChartConstants, (), (n, d2, d3, c4, A2, A3, D3, D4, B3, B4, E2))
BOOST_DESCRIBE_STRUCT(SubgroupChart, (),
                      (xbarbar, rbar, sbar, sigma_R, sigma_s, ucl_x, lcl_x, ucl_r, lcl_r, ucl_x_s, lcl_x_s, ucl_s,
                       lcl_s, means, out_x, out_r, out_x_s, out_s, constants))
BOOST_DESCRIBE_ENUM(ZoneRule, one_beyond_3, two_of_3_beyond_2, four_of_5_beyond_1, eight_on_a_side)
BOOST_DESCRIBE_STRUCT(ZoneCall, (), (rule, at))

}  // namespace hw::condition

namespace hw::terminal {
namespace {

struct IndividualsView {
  condition::IndividualsChart exact_d2, d2_1_128;
  std::optional<std::vector<condition::ZoneCall>> rules;
};
BOOST_DESCRIBE_STRUCT(IndividualsView, (), (exact_d2, d2_1_128, rules))

std::string print_individuals(const IndividualsView& view) {
  const condition::IndividualsChart& chart = view.exact_d2;
  std::string text =
      fmt::format("single values: mean {:.6g}, mean moving range {:.6g}, sigma {:.6g} (exact d2)\n", chart.mean,
                  chart.mr_bar, chart.sigma) +
      fmt::format("  limits {:.6g} to {:.6g} (with d2 = 1.128: {:.6g} to {:.6g}), points beyond: {}\n", chart.lcl,
                  chart.ucl, view.d2_1_128.lcl, view.d2_1_128.ucl, print_points(chart.out)) +
      fmt::format("  moving range up to {:.6g}, points beyond: {}\n", chart.mr_ucl, print_points(chart.mr_out));
  if (!view.rules) return text;
  for (const condition::ZoneCall& call : *view.rules) {
    text += fmt::format("  {}: {}\n", formats::print_word(call.rule), print_points(call.at));
  }
  return text + "  all four rules together call falsely every 92 points, the first alone every 370\n";
}

Answer individuals_answer(const ConditionCall& call, const std::vector<double>& x) {
  HW_TAKE(exact, condition::individuals_chart(x, condition::RangeConstant::exact_d2));
  HW_TAKE(rounded, condition::individuals_chart(x, condition::RangeConstant::d2_1_128));
  IndividualsView view{exact, rounded, {}};
  if (call.with_rules) view.rules = condition::zone_calls(x, exact.mean, exact.sigma);
  return Said(call.is_json ? formats::print_json(view) + "\n" : print_individuals(view));
}

std::string print_subgroups(const condition::SubgroupChart& chart) {
  return fmt::format("subgroups of {}: mean {:.6g}, mean range {:.6g}, mean s {:.6g}\n", chart.constants.n,
                     chart.xbarbar, chart.rbar, chart.sbar) +
         fmt::format("  means by the ranges      {:.6g} to {:.6g}, subgroups beyond: {}\n", chart.lcl_x, chart.ucl_x,
                     print_points(chart.out_x)) +
         fmt::format("  ranges                   {:.6g} to {:.6g}, subgroups beyond: {}\n", chart.lcl_r, chart.ucl_r,
                     print_points(chart.out_r)) +
         fmt::format("  means by the s           {:.6g} to {:.6g}, subgroups beyond: {}\n", chart.lcl_x_s,
                     chart.ucl_x_s, print_points(chart.out_x_s)) +
         fmt::format("  s                        {:.6g} to {:.6g}, subgroups beyond: {}\n", chart.lcl_s, chart.ucl_s,
                     print_points(chart.out_s));
}

Answer counts_answer(const ConditionCall& call, const std::vector<double>& counts) {
  HW_TAKE(chart, condition::count_chart(counts));
  return Said(call.is_json ? formats::print_json(chart) + "\n"
                           : fmt::format("counts: mean {:.6g}, limits {:.6g} to {:.6g}, periods beyond: {}\n",
                                         chart.cbar, chart.lcl, chart.ucl, print_points(chart.out)));
}

}  // namespace

std::string print_points(const std::vector<std::size_t>& points) {
  return points.empty() ? "none" : fmt::format("{}", fmt::join(points, ", "));
}

Answer chart_answer(const ConditionCall& call) {
  HW_TAKE(table, read_series_table(call.file));
  HW_TAKE(subgroups, subgroups_of(table));
  if (subgroups) {
    HW_TAKE(chart, condition::subgroup_chart(*subgroups));
    return Said(call.is_json ? formats::print_json(chart) + "\n" : print_subgroups(chart));
  }
  HW_TRY(check_columns(table, {"x", "c"}));
  if (table.header().size() != 1) return refuse(ErrorCode::bad_input, "either a column x or a column c, not both");
  HW_TAKE(values, numbers_of(table, 0));
  return table.find_column("c") ? counts_answer(call, values) : individuals_answer(call, values);
}

}  // namespace hw::terminal
