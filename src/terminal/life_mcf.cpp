#include "src/terminal/life_mcf.h"

#include <boost/describe/class.hpp>

#include "libs/formats/json.h"
#include "src/life/mean_cumulative.h"
#include "src/terminal/watched_file.h"

namespace hw::life {

BOOST_DESCRIBE_STRUCT(CumulativeStep, (), (age, at_risk, failures, mean, se, se_poisson, lower, upper))

}  // namespace hw::life

namespace hw::terminal {
namespace {

struct CumulativeReport {
  std::size_t machines = 0;
  double conf = 0;
  std::vector<life::CumulativeStep> steps;
};
BOOST_DESCRIBE_STRUCT(CumulativeReport, (), (machines, conf, steps))

std::string print_text(const CumulativeReport& report) {
  std::string text = fmt::format("mean cumulative failures of {} machine{}, {:g} % intervals\n\n", report.machines,
                                 report.machines == 1 ? "" : "s", 100 * report.conf);
  text += fmt::format("{:>12}{:>9}{:>9}{:>11}{:>11}{:>23}\n", "age", "watched", "failed", "mean", "error", "interval");
  for (const life::CumulativeStep& step : report.steps) {
    text += fmt::format("{:>12.7g}{:>9.0f}{:>9.0f}{:>11.5g}{:>11.4g}{:>23}\n", step.age, step.at_risk, step.failures,
                        step.mean, step.se, fmt::format("[{:.5g}, {:.5g}]", step.lower, step.upper));
  }
  return text;
}

}  // namespace

Answer count_life(const LifeOptions& call) {
  HW_TAKE(machines, read_watched_file(call.file));
  if (machines.empty()) return refuse(ErrorCode::bad_input, "{}: no machine in it", call.file);
  HW_TAKE(steps, life::mean_cumulative(machines, call.conf));
  const CumulativeReport report{machines.size(), call.conf, steps};
  return Said(call.is_json ? formats::print_json(report) + "\n" : print_text(report));
}

}  // namespace hw::terminal
