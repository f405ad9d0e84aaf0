#include "libs/values/instant.h"

#include <limits>

#include <gtest/gtest.h>

namespace hw {
namespace {

TEST(Instant, AnyNumberOfFractionDigitsIsKeptToTheNanosecond) {
  EXPECT_EQ(parse_instant("1970-01-01T00:00:01Z")->ns, 1'000'000'000);
  EXPECT_EQ(parse_instant("1970-01-01T00:00:01.5Z")->ns, 1'500'000'000);
  EXPECT_EQ(parse_instant("1970-01-01T00:00:00.123456789Z")->ns, 123'456'789);
  EXPECT_EQ(parse_instant("1970-01-01T00:00:00.1234567899999Z")->ns, 123'456'789);
}

TEST(Instant, NoZoneMarkIsUtcAndAnOffsetIsHonoured) {
  const auto utc = parse_instant("2016-05-23T05:00:00Z");
  EXPECT_EQ(parse_instant("2016-05-23T05:00:00"), utc);
  EXPECT_EQ(parse_instant("2016-05-23T07:00:00+02:00"), utc);
  EXPECT_EQ(parse_instant("2016-05-22T23:30:00-05:30"), utc);
}

TEST(Instant, WhatIsNoTimeIsRefusedWithAnExample) {
  for (const char* text : {"", "2016-05-23", "2016-02-30T00:00:00Z", "2016-05-23T24:00:00Z", "2016-05-23T05:00:00Zx",
                           "2016-05-23T05:00:00.Z", "yesterday", "99999-01-01T00:00:00Z", "1500-01-01T00:00:00Z"}) {
    const auto read = parse_instant(text);
    ASSERT_FALSE(read.has_value()) << text;
    EXPECT_NE(read.error().message.find("2026-03-02T06:30:00Z"), std::string::npos);
  }
}

TEST(Instant, PrintedTimesReadBackToTheSameMoment) {
  for (std::int64_t ns : {0L, 1L, -1L, 1'463'979'600'020'703'000L, -86'400'000'000'001L}) {
    EXPECT_EQ(parse_instant(print(Instant{ns}))->ns, ns) << print(Instant{ns});
  }
  EXPECT_EQ(print(Instant{1'463'979'600'020'703'000L}), "2016-05-23T05:00:00.020703Z");
}

TEST(Instant, MillisecondsBeforeTheEpochAreRoundedDown) {
  EXPECT_EQ(Instant{-1}.as_millis(), -1);
  EXPECT_EQ(Instant{-1'000'000}.as_millis(), -1);
  EXPECT_EQ(Instant{1'999'999}.as_millis(), 1);
}

TEST(Duration, SecondsArePrintedExactly) {
  EXPECT_EQ(print_seconds({31'627'020'703'000}), "31627.020703");
  EXPECT_EQ(print_seconds({-500'000'000}), "-0.5");
  EXPECT_EQ(print_seconds({0}), "0");
  EXPECT_EQ(print_seconds({std::numeric_limits<std::int64_t>::min()}), "-9223372036.854775808");
}

}  // namespace
}  // namespace hw
