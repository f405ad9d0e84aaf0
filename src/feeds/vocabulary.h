#pragma once
// Words into numbers: what the text of an observation is worth to a counter, by the role of its item.
//
// execution: ACTIVE 1, every other word a number of its own below 0, so that two words at one time are told apart
// (words outside the standard too, and these are not `standard`). power_state: ON 1, OFF 0. availability: AVAILABLE 1.
// Everything else is a number in the item's units. UNAVAILABLE in any letter case, the empty text, not a number, not
// finite: unknown.

#include <map>
#include <string>
#include <string_view>

#include "src/counters/machine_model.h"
#include "src/counters/observation.h"

namespace hw::feeds {

struct Reading {
  double value = counters::unknown_value;
  bool standard = true;  // false: a word that the standard does not know, or no number where one belongs
};

class Vocabulary {
 public:
  Vocabulary() = default;
  // Aliases for Execution words, as in {"EXECUTING", "ACTIVE"}; letter case matters.
  explicit Vocabulary(std::map<std::string, std::string, std::less<>> aliases) : aliases_(std::move(aliases)) {}

  Reading read(counters::Role role, std::string_view text) const;

 private:
  Reading read_execution(std::string_view word) const;

  std::map<std::string, std::string, std::less<>> aliases_;
};

// Without the blanks around it.
std::string_view trim(std::string_view text);

// The same word, whatever the text's letter case; `upper` is in capitals.
bool is_word(std::string_view text, std::string_view upper);

// UNAVAILABLE in any letter case.
bool is_unavailable(std::string_view text);

// A whole decimal number, "1481.5", "-0", "1e-05", "+3"; blanks around it are cut. Otherwise, and where it is not
// finite, unknown.
double read_number(std::string_view text);

}  // namespace hw::feeds
