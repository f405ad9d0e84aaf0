#include "src/terminal/help_command.h"

#include <algorithm>

#include <boost/json.hpp>
#include <gtest/gtest.h>

#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

TEST(HelpCommand, ListsCommandsAndOptionsFromTheirOwnTable) {
  const Called called = call({"help", "--json"});
  ASSERT_EQ(called.exit_status, 0) << called.errors;
  const boost::json::value help = boost::json::parse(called.output);
  EXPECT_EQ(help.at("commands").at(0).at("name"), "hours");
  const boost::json::array& options = help.at("commands").at(0).at("options").as_array();
  EXPECT_NE(std::find(options.begin(), options.end(), "--load-above"), options.end());
}

TEST(HelpCommand, WithoutANameListsTheCommands) {
  const Called called = call({"help"});
  EXPECT_EQ(called.exit_status, 0) << called.errors;
  for (const char* command : {"hours", "due", "serve", "logbook"}) {
    EXPECT_NE(called.output.find(std::string("  ") + command), std::string::npos) << called.output;
  }
}

TEST(HelpCommand, TellsAboutOneCommand) {
  const Called called = call({"help", "hours"});
  EXPECT_EQ(called.exit_status, 0);
  EXPECT_NE(called.output.find("--by-day"), std::string::npos);
  expect_refused(call({"help", "mend"}), 2, "mend");
}

}  // namespace
}  // namespace hw::terminal
