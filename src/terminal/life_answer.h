#pragma once
// What every command of `life` does with a refusal: for programs {"refused": reason} on standard output, for people the
// sentence on standard error; exit status 1 either way.

#include "src/terminal/command_line.h"

namespace hw::terminal {

struct LifeOptions {
  std::string file;
  double conf = 0.95;
  bool is_json = false;
};

Answer answer_life(Answer answer, bool is_json);

// A number above 0 and up to 1e100, for CLI11.
std::string check_above_zero(const std::string& text);

}  // namespace hw::terminal
