#pragma once
// What a rehearsal is asked and what it tells, in the fields of api/openapi.yaml.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include <boost/describe/class.hpp>

#include "src/rehearsal/spread.h"

namespace hw::service {

struct IntervalChangeView {
  std::string kind;
  std::string task;
  std::optional<std::string> counter;  // nothing: the interval in days of the calendar
  double interval = 0;
};
BOOST_DESCRIBE_STRUCT(IntervalChangeView, (), (kind, task, counter, interval))

struct RehearsalEdit {
  std::vector<IntervalChangeView> changes;
  std::optional<int> years;
  std::optional<std::int64_t> seed;
};
BOOST_DESCRIBE_STRUCT(RehearsalEdit, (), (changes, years, seed))

struct RehearsalView {
  std::string currency;
  int years = 0;
  std::int64_t seed = 0;
  int machines = 0;
  int tasks = 0;
  int parts = 0;
  int without_use = 0;
  rehearsal::OutcomeSpread present;
  rehearsal::OutcomeSpread changed;
  rehearsal::OutcomeSpread difference;
  double cheaper = 0;
  double same_cost = 0;
};
BOOST_DESCRIBE_STRUCT(RehearsalView, (),
                      (currency, years, seed, machines, tasks, parts, without_use, present, changed, difference,
                       cheaper, same_cost))

}  // namespace hw::service
