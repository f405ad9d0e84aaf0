#include "src/life/mean_cumulative.h"

#include <cmath>
#include <map>

#include "src/life/weibull_fit.h"

namespace hw::life {
namespace {

Result<void> check_watch(const WatchedMachine& machine) {
  if (!(machine.entry >= 0 && machine.end > machine.entry && machine.end <= 1e100)) {
    return refuse(ErrorCode::bad_input, "a watch from {} to {} is none", machine.entry, machine.end);
  }
  for (const double age : machine.failures) {
    if (age > machine.entry && age <= machine.end) continue;
    return refuse(ErrorCode::bad_input, "the failure at {} is outside the watch from {} to {}", age, machine.entry,
                  machine.end);
  }
  return {};
}

}  // namespace

Result<std::vector<CumulativeStep>> mean_cumulative(std::span<const WatchedMachine> machines, double conf) {
  std::map<double, std::map<std::size_t, double>> failures;  // by age, by machine
  for (std::size_t m = 0; m < machines.size(); ++m) {
    HW_TRY(check_watch(machines[m]));
    for (const double age : machines[m].failures) failures[age][m] += 1;
  }
  const double deviate = wald_deviate(conf);
  std::vector<double> away(machines.size(), 0.0);  // of each machine from the mean, summed up
  std::vector<CumulativeStep> steps;
  CumulativeStep now;
  double poisson = 0;
  for (const auto& [age, by_machine] : failures) {
    now.age = age;
    now.at_risk = now.failures = 0;
    for (const auto& one : by_machine) now.failures += one.second;
    for (const WatchedMachine& machine : machines) now.at_risk += machine.entry < age && age <= machine.end ? 1 : 0;
    const double rise = now.failures / now.at_risk;
    now.mean += rise;
    poisson += rise / now.at_risk;
    double variance = 0;
    for (std::size_t m = 0; m < machines.size(); ++m) {
      const auto own = by_machine.find(m);
      if (machines[m].entry < age && age <= machines[m].end) {
        away[m] += ((own == by_machine.end() ? 0 : own->second) - rise) / now.at_risk;
      }
      variance += away[m] * away[m];
    }
    now.se = std::sqrt(variance);
    now.se_poisson = std::sqrt(poisson);
    now.lower = now.mean * std::exp(-deviate * now.se / now.mean);
    now.upper = now.mean * std::exp(deviate * now.se / now.mean);
    steps.push_back(now);
  }
  return steps;
}

}  // namespace hw::life
