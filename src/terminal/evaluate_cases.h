#pragma once
// Cases of the command `evaluate`, one JSON object each or a list of them, and their answers in the same shape
// (docs/methods/evaluations.md). Field names are those of tests/published/t7_facts.json.

#include <string>

#include <boost/describe/class.hpp>
#include <boost/json/value.hpp>

#include "libs/formats/json_parse.h"
#include "src/condition/standard_note.h"
#include "src/terminal/command_line.h"

namespace hw::terminal {

// What one case says: as JSON without a line's ending, and as lines of text for people.
struct CaseAnswer {
  std::string json;
  std::string text;
};

using EvaluateCase = Result<CaseAnswer> (*)(const boost::json::value& tree, const formats::JsonPlace& place);

// How a file of cases is answered.
struct CaseReading {
  EvaluateCase evaluate;
  bool is_json = false;
  bool takes_numbers = false;  // a list of numbers is one case: three counts of particles
};

// The file holds one JSON object or a list of them; "-" is standard input. A refusal names the file and the case.
Answer answer_cases(const std::string& file, const CaseReading& reading);

// One for each subcommand. Errors: bad_input that names the field.
Result<CaseAnswer> positioning_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> circular_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> cleanliness_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> vibration_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> coolant_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> viscosity_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> bearing_case(const boost::json::value& tree, const formats::JsonPlace& place);
Result<CaseAnswer> air_case(const boost::json::value& tree, const formats::JsonPlace& place);

// A part of viscosity_case: what is no temperature and no index.
Result<CaseAnswer> grade_case(const boost::json::value& tree, const formats::JsonPlace& place);

// The note that goes with each result, as JSON has it and as people read it.
struct StandardView {
  std::string edition, confirmed, memory, check;
};
BOOST_DESCRIBE_STRUCT(StandardView, (), (edition, confirmed, memory, check))

StandardView view_of(const condition::StandardNote& note);
std::string print_note(const condition::StandardNote& note);

// The case as a T, or which of its fields is wrong.
template <class T>
Result<T> read_case(const boost::json::value& tree, const formats::JsonPlace& place) {
  T read{};
  if (auto done = formats::JsonReading::read(tree, read, place); !done) return refuse(done.error());
  return read;
}

}  // namespace hw::terminal
