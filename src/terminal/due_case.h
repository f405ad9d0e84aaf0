#pragma once
// Cases of the command `due` as text, one to a line, and their answers (docs/api/due.md).
//
//   case    {"id", "start", "history": [{"date", "used"}, ...], "left" [, "closed", "unit", "shifts", "alike"]}
//   answer  {"id", "quantiles": {"0.05": DATE or null, ...}, "basis"}  or  {"id", "refused"}

#include <optional>
#include <string>
#include <string_view>

#include <boost/json/value.hpp>

#include "src/due/use_forecast.h"

namespace hw::terminal {

struct DueCase {
  boost::json::value id;
  due::UseHistory history;
  due::ForecastOptions options;
  double left = 0;
};

// What came of one line.
struct DueAnswer {
  boost::json::value id;
  due::DueQuantiles days;
  std::string basis;
  std::string refused;    // why there is no answer; empty where there is one
  bool is_a_case = true;  // false: the line is no case at all (no JSON, a field too many, one missing)
};

// Errors: bad_input that names the field.
Result<DueCase> parse_due_case(std::string_view line);

// Never fails: what cannot be answered says so. `line_number` is named where the line is no case.
DueAnswer answer_due(std::string_view line, std::uint64_t line_number);

std::string print_due_json(const DueAnswer& answer);   // one line, with its ending
std::string print_due_table(const DueAnswer& answer);  // a row of print_due_heading's table, and the basis below
std::string print_due_heading();

}  // namespace hw::terminal
