#pragma once
// The command line as tests call it: words in; exit status, output and errors out.

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "src/terminal/command_line.h"
#include "tests/places/places.h"

namespace hw::terminal {

// The folder of the recorded day.
inline const std::string recorded_day = in_source("tests/recordings/day/");

struct Called {
  int exit_status = 0;
  std::string output;
  std::string errors;
};

inline Called call(std::vector<std::string> words, const Entrances& entrances = {}) {
  words.insert(words.begin(), "hourwright");
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  testing::internal::CaptureStdout();
  testing::internal::CaptureStderr();
  Called called;
  called.exit_status = run(static_cast<int>(pointers.size()), pointers.data(), entrances);
  called.output = testing::internal::GetCapturedStdout();
  called.errors = testing::internal::GetCapturedStderr();
  return called;
}

// One line that names what is wrong, nothing on standard output.
inline void expect_refused(const Called& called, int exit_status, const std::string& with) {
  EXPECT_EQ(called.exit_status, exit_status) << called.errors;
  EXPECT_EQ(called.output, "");
  EXPECT_NE(called.errors.find(with), std::string::npos) << called.errors;
  EXPECT_EQ(std::count(called.errors.begin(), called.errors.end(), '\n'), 1) << called.errors;
}

}  // namespace hw::terminal
