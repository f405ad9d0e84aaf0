#include "src/condition/possible_value.h"

#include <limits>

#include <gtest/gtest.h>

namespace hw::condition {
namespace {

using catalogue::TaskReading;

TEST(PossibleValue, WhatNoGaugeShowsIsRefusedWithWhatWouldBeRight) {
  const auto refusal = [](const char* unit, double value) {
    const auto checked = check_value(TaskReading{"level", unit, {}, {}}, value);
    return checked ? std::string{} : checked.error().message;
  };
  EXPECT_EQ(refusal("l", -1), "level: -1 l cannot be; it is 0 or more");
  EXPECT_EQ(refusal("pH", 15), "level: 15 pH cannot be; it is 14 or less");
  EXPECT_NE(refusal("bar", 1e10), "");
  EXPECT_NE(refusal("bar", std::numeric_limits<double>::infinity()), "");
  EXPECT_NE(refusal("bar", std::numeric_limits<double>::quiet_NaN()), "");
  EXPECT_EQ(refusal("bar", -0.8), "");
  EXPECT_EQ(refusal("%", 100), "");
}

TEST(PossibleValue, AnotherUnitIsRefused) {
  const TaskReading air{"supply air", "bar", {}, {}};
  EXPECT_TRUE(check_unit(air, "Bar"));
  EXPECT_EQ(check_unit(air, "psi").error().message, "supply air: \"psi\" is not its unit; read it in bar");
  EXPECT_FALSE(check_unit(air, ""));
}

}  // namespace
}  // namespace hw::condition
