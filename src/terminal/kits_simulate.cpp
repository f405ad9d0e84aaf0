#include "src/terminal/kits_simulate.h"

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/simulate/stores_years.h"

namespace hw::terminal {
namespace {

struct RuleReport {
  std::string rule;
  double level = 0, service = 0, service_se = 0, kits_complete = 0, stock_value = 0, cost_a_year = 0;
  double orders_a_year = 0, lines_a_year = 0;
  int needs = 0, stops = 0;
};
BOOST_DESCRIBE_STRUCT(RuleReport, (),
                      (rule, level, service, service_se, kits_complete, stock_value, cost_a_year, orders_a_year,
                       lines_a_year, needs, stops))

struct StoresReport {
  std::uint64_t seed = 0;
  int years = 0;
  double wanted = 0;
  RuleReport proposed;
  std::vector<RuleReport> as_usual, at_equal_service;
  std::string service_measure = "share of needs met in full at once from stock; se from the years";
};
BOOST_DESCRIBE_STRUCT(StoresReport, (), (seed, years, wanted, proposed, as_usual, at_equal_service, service_measure))

RuleReport report_of(const simulate::ComparedRule& rule, double years) {
  const simulate::StoresOutcome& outcome = rule.outcome;
  return {.rule = rule.name,
          .level = rule.level,
          .service = outcome.service,
          .service_se = outcome.service_se,
          .kits_complete = outcome.stops > 0 ? double(outcome.stops_met) / outcome.stops : 1,
          .stock_value = outcome.stock_value,
          .cost_a_year = outcome.cost,
          .orders_a_year = outcome.orders / years,
          .lines_a_year = outcome.lines / years,
          .needs = outcome.needs,
          .stops = outcome.stops};
}

std::string print_row(const RuleReport& row, const RuleReport& ours) {
  return fmt::format("| {} | {:.2f} | {:.2f} % | {:.2f} % | {:.1f} % | {:.0f} | {:+.0f} % | {:.0f} | {:.0f} |\n",
                     row.rule, row.level, 100 * row.service, 100 * row.service_se, 100 * row.kits_complete,
                     row.stock_value, 100 * (row.stock_value / ours.stock_value - 1), row.cost_a_year,
                     row.orders_a_year);
}

std::string print_text(const StoresReport& report) {
  std::string text = fmt::format(
      "{} years, seed {}, wanted {:g} %; {} needs, {} stops\n\n"
      "| rule | level | needs met at once | error | kits complete | stock value | to ours | cost a year | orders a "
      "year |\n"
      "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n",
      report.years, report.seed, 100 * report.wanted, report.proposed.needs, report.proposed.stops);
  text += print_row(report.proposed, report.proposed);
  for (const auto* rows : {&report.as_usual, &report.at_equal_service}) {
    for (const RuleReport& row : *rows) text += print_row(row, report.proposed);
  }
  return text;
}

}  // namespace

Answer simulate_kits(const KitsSimulateCall& call) {
  simulate::StoresPlay play;
  play.plan.seed = call.seed;
  play.plan.kinds = call.kinds;
  play.years = call.years;
  const simulate::StoresComparison comparison = simulate::compare_rules(play, call.wanted);
  StoresReport report;
  report.seed = call.seed;
  report.years = call.years;
  report.wanted = call.wanted;
  report.proposed = report_of(comparison.ours, call.years);
  for (const auto& rule : comparison.as_usual) report.as_usual.push_back(report_of(rule, call.years));
  for (const auto& rule : comparison.as_good) report.at_equal_service.push_back(report_of(rule, call.years));
  return Said(call.is_json ? formats::print_json(report) + "\n" : print_text(report));
}

}  // namespace hw::terminal
