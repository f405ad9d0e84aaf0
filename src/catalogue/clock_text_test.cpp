#include "src/catalogue/clock_text.h"

#include <gtest/gtest.h>

namespace hw::catalogue {
namespace {

TEST(ClockText, IsMinutesFromMidnightOrRefused) {
  EXPECT_EQ(*parse_clock("00:00"), 0);
  EXPECT_EQ(*parse_clock("06:05"), 365);
  EXPECT_EQ(*parse_clock("23:59"), 1439);
  for (const char* text : {"", "6:00", "24:00", "12:60", "12.30", "noon", "12:3x", "-1:00"}) {
    EXPECT_FALSE(parse_clock(text)) << text;
  }
}

}  // namespace
}  // namespace hw::catalogue
