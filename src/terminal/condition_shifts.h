#pragma once
// What the charts that find small lasting shifts have alike on the command line: single values from a table, or, by
// --shift, how long they would run.

#include "libs/formats/json.h"
#include "src/terminal/condition_answers.h"
#include "src/terminal/series_file.h"

namespace hw::terminal {

// Refuses both, and neither.
Result<void> check_file_or_shifts(const ConditionCall& call, std::string_view command);

// Calls length_of(shift) for each --shift: a Result of a Length, described for JSON. `lengths` has them in its `list`;
// print_line makes a line of text of one.
template <class Lengths, class Length, class LengthOf, class PrintLine>
Answer answer_shifts(const ConditionCall& call, std::vector<Length> Lengths::*list, const LengthOf& length_of,
                     const PrintLine& print_line) {
  Lengths lengths;
  std::string text;
  for (const double shift : call.shifts) {
    HW_TAKE(one, length_of(shift));
    text += print_line(one);
    (lengths.*list).push_back(one);
  }
  return Said(call.is_json ? formats::print_json(lengths) + "\n" : text);
}

}  // namespace hw::terminal
