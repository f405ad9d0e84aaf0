#include <gtest/gtest.h>

#include "src/terminal/called_test.h"

namespace hw::terminal {
namespace {

TEST(HoursTables, PrintsHoursWithTheirDefinitionForPeople) {
  const Called called = call({"hours", "--devices", recorded_day + "devices.xml", "--device", "lathe-l", "--by-day",
                              "--load-above", "5", recorded_day + "lathe-l_2016-05-23.shdr.xz"});
  ASSERT_EQ(called.exit_status, 0) << called.errors;
  EXPECT_NE(called.output.find("operating"), std::string::npos);
  EXPECT_NE(called.output.find("Execution is ACTIVE"), std::string::npos);
  EXPECT_NE(called.output.find("load above 5 %"), std::string::npos);
  EXPECT_NE(called.output.find("2016-05-23"), std::string::npos);
}

}  // namespace
}  // namespace hw::terminal
