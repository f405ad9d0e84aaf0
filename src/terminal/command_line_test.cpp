#include "src/terminal/command_line.h"

#include <gtest/gtest.h>

#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

TEST(CommandLine, AnUnknownCommandOrNoneIsWrongUsage) {
  expect_refused(call({"mend"}), 2, "no command \"mend\"");
  expect_refused(call({}), 2, "hourwright help");
}

TEST(CommandLine, HelpIsNoError) {
  const Called called = call({"--help"});
  EXPECT_EQ(called.exit_status, 0);
  EXPECT_NE(called.output.find("hours"), std::string::npos);
  EXPECT_EQ(called.errors, "");
}

}  // namespace
}  // namespace hw::terminal
