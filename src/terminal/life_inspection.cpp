#include "src/terminal/life_inspection.h"

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"

namespace hw::terminal {
namespace {

struct InspectedEvery {
  double interval = 0, down = 0, breakdowns = 0;
};
BOOST_DESCRIBE_STRUCT(InspectedEvery, (), (interval, down, breakdowns))

struct InspectionReport {
  formats::OrNull<double> interval;  // null: no inspection
  double down = 0, down_without = 0, breakdowns = 1;
  std::optional<InspectedEvery> every;
};
BOOST_DESCRIBE_STRUCT(InspectionReport, (), (interval, down, down_without, breakdowns, every))

struct TestReport {
  double interval = 0, unprotected = 0;
};
BOOST_DESCRIBE_STRUCT(TestReport, (), (interval, unprotected))

std::string print_text(const InspectionReport& report) {
  const auto line = [](double interval, double down, double breakdowns) {
    return fmt::format("every {:.6g}: down {:.4g} % of the time, {:.4g} % of the defects become breakdowns\n", interval,
                       100 * down, 100 * breakdowns);
  };
  std::string text = report.interval ? "inspect " + line(*report.interval, report.down, report.breakdowns)
                                     : std::string("no inspection: it takes more time than it saves\n");
  text += fmt::format("without inspections: down {:.4g} % of the time\n", 100 * report.down_without);
  return report.every ? text + line(report.every->interval, report.every->down, report.every->breakdowns) : text;
}

}  // namespace

Answer inspect_life(const LifeInspectionCall& call) {
  const life::InspectionAdvice advice = life::advise_inspection(call.model);
  InspectionReport report{{}, advice.down, advice.down_without, advice.breakdowns, {}};
  if (advice.interval) report.interval.emplace(*advice.interval);
  if (call.every) {
    report.every = InspectedEvery{*call.every, life::down_share(call.model, *call.every),
                                  life::breakdown_share(call.model, *call.every)};
  }
  return Said(call.is_json ? formats::print_json(report) + "\n" : print_text(report));
}

Answer test_life(const LifeTestCall& call) {
  if (call.every.has_value() == call.share.has_value()) {
    return refuse(ErrorCode::wrong_usage, "life test: either --every or --share");
  }
  const double interval = call.every ? *call.every : life::test_interval(call.life, *call.share);
  const TestReport report{interval, life::unprotected_share(call.life, interval)};
  if (call.is_json) return Said(formats::print_json(report) + "\n");
  return Said(fmt::format("tested every {:.6g}: unprotected in {:.4g} % of the time\n", report.interval,
                          100 * report.unprotected));
}

}  // namespace hw::terminal
