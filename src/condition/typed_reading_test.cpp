#include "src/condition/typed_reading.h"

#include <random>

#include <gtest/gtest.h>

namespace hw::condition {
namespace {

using catalogue::TaskReading;

const TaskReading air{"supply air", "bar", {}, {}};

TaskReading in(std::string unit) { return {"reading", std::move(unit), {}, {}}; }

std::string refusal(const TaskReading& reading, std::string_view typed) {
  const auto read = parse_reading(reading, typed);
  EXPECT_FALSE(read) << typed;
  return read ? "" : read.error().message;
}

TEST(TypedReading, TakesCommaAndPointBlanksAndSigns) {
  const std::vector<std::pair<const char*, double>> cases{
      {"5", 5},       {"5.2", 5.2},        {"5,2", 5.2},        {" 5,2 ", 5.2},           {"+5.2", 5.2},
      {"-0,8", -0.8}, {"\u22120,8", -0.8}, {"1 234,5", 1234.5}, {"1\u202f234.5", 1234.5}, {",5", 0.5},
      {"5,", 5},      {"0,125", 0.125},    {"1,2340", 1.234},   {"1234", 1234},           {"-0", 0},
  };
  for (const auto& [typed, value] : cases) {
    const auto read = parse_reading(air, typed);
    ASSERT_TRUE(read) << typed << ": " << read.error().message;
    EXPECT_EQ(*read, value) << typed;
  }
}

TEST(TypedReading, TheUnitMayBeTypedButNoOther) {
  EXPECT_EQ(*parse_reading(air, "5,2 bar"), 5.2);
  EXPECT_EQ(*parse_reading(air, "5.2Bar"), 5.2);
  EXPECT_EQ(*parse_reading(in("°C"), "21 °C"), 21);
  EXPECT_EQ(*parse_reading(in("%"), "7%"), 7);
  EXPECT_EQ(refusal(air, "75 psi"), "supply air: \"psi\" is not its unit; read it in bar");
  EXPECT_NE(refusal(in("°C"), "70 °F").find("read it in °C"), std::string::npos);
  EXPECT_NE(refusal(air, "5 mbar").find("\"mbar\""), std::string::npos);
}

TEST(TypedReading, WhatIsNoNumberIsRefusedWithAnExample) {
  for (const char* typed : {"", " ", "much", "NaN", "nan", "inf", "-inf", "1e309", "1e3", "1E-3", "0x10", "--5", "5-3",
                            "-", ",", "5 . 2", "five bar", "+-3", "bar"}) {
    const std::string message = refusal(air, typed);
    EXPECT_EQ(message.substr(0, 12), "supply air: ") << typed;
    EXPECT_TRUE(message.find("5.2 bar") != std::string::npos || message.find("in bar") != std::string::npos) << message;
  }
  EXPECT_NE(refusal(air, "1e309").find("is no number"), std::string::npos);
  EXPECT_NE(refusal(air, std::string(400, '9')).find("too long"), std::string::npos);
  EXPECT_NE(refusal(air, std::string(50, '9')).find("more than any gauge shows"), std::string::npos);
}

TEST(TypedReading, WhatHasTwoMeaningsIsRefusedWithBoth) {
  EXPECT_EQ(refusal(air, "1,234"), "supply air: \"1,234\" can be read in two ways; write 1234, or 1,2340");
  EXPECT_NE(refusal(air, "-12.345").find("-12345, or -12.3450"), std::string::npos);
  EXPECT_NE(refusal(air, "1.234,5").find("one comma or point"), std::string::npos);
}

TEST(TypedReading, WhatTheUnitCannotBeIsRefused) {
  EXPECT_NE(refusal(in("%"), "-3").find("0 or more"), std::string::npos);
  EXPECT_NE(refusal(in("%"), "101").find("100 or less"), std::string::npos);
  EXPECT_NE(refusal(in("pH"), "91").find("14 or less"), std::string::npos);
  EXPECT_NE(refusal(in("l"), "-1").find("0 or more"), std::string::npos);
  EXPECT_NE(refusal(in("h"), "-0,1").find("0 or more"), std::string::npos);
  EXPECT_NE(refusal(in("°C"), "-300").find("-273.15 or more"), std::string::npos);
  EXPECT_EQ(*parse_reading(in("°C"), "-5"), -5);
  EXPECT_EQ(*parse_reading(in("mm"), "-0,008"), -0.008);
}

TEST(TypedReading, Property_WhatIsPrintedReadsBackWithEitherMark) {
  for (unsigned seed = 1; seed <= 500; ++seed) {
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    const double value = static_cast<double>(std::uniform_int_distribution<int>(-999'999, 999'999)(random)) / 100;
    std::string typed = fmt::format("{:.2f}", value);
    EXPECT_EQ(*parse_reading(air, typed), value);
    EXPECT_EQ(*parse_reading(air, typed.replace(typed.find('.'), 1, ",") + " bar"), value);
  }
}

TEST(TypedReading, Property_AnyBytesAreTakenOrRefusedButNeverAnythingElse) {
  for (unsigned seed = 1; seed <= 5000; ++seed) {
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    const std::string_view alphabet = "0123456789.,+-eEnN \t\xe2\x88\x92\xc2\xa0%x";
    std::string typed(random() % 12, ' ');
    for (char& one : typed) one = alphabet[random() % alphabet.size()];
    const auto read = parse_reading(in("%"), typed);
    if (read) {
      EXPECT_GE(*read, 0);
      EXPECT_LE(*read, 100);
    } else {
      EXPECT_FALSE(read.error().message.empty());
    }
  }
}

}  // namespace
}  // namespace hw::condition
