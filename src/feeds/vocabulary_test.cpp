#include "src/feeds/vocabulary.h"

#include <charconv>
#include <random>
#include <set>

#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

using counters::is_unknown;
using counters::Role;

TEST(Vocabulary, ExecutionIsOneWhenActiveAndBelowZeroForEveryOtherWordOfTheStandard) {
  std::set<double> values;
  const Vocabulary words;
  EXPECT_EQ(words.read(Role::execution, "ACTIVE").value, 1.0);
  for (const char* word : {"READY", "INTERRUPTED", "STOPPED", "FEED_HOLD", "PROGRAM_STOPPED", "PROGRAM_COMPLETED",
                           "OPTIONAL_STOP", "PROGRAM_OPTIONAL_STOP", "WAIT"}) {
    const Reading reading = words.read(Role::execution, word);
    EXPECT_LT(reading.value, 0.0) << word;
    EXPECT_TRUE(values.insert(reading.value).second) << word << " is told apart from the others";
    EXPECT_TRUE(reading.standard) << word;
  }
}

TEST(Vocabulary, WordsOutsideTheStandardAreNotGuessed) {
  const Reading reading = Vocabulary().read(Role::execution, "EXECUTING");
  EXPECT_LT(reading.value, 0.0);
  EXPECT_FALSE(reading.standard);
}

TEST(Vocabulary, AliasMakesAWordMeanAnother) {
  const Vocabulary words({{"EXECUTING", "ACTIVE"}, {"GONE", "UNAVAILABLE"}});
  EXPECT_EQ(words.read(Role::execution, "EXECUTING").value, 1.0);
  EXPECT_TRUE(words.read(Role::execution, "EXECUTING").standard);
  EXPECT_TRUE(is_unknown(words.read(Role::execution, "GONE").value));
}

TEST(Vocabulary, UnavailableInAnyLetterCaseIsUnknownForEveryRole) {
  for (const char* word : {"UNAVAILABLE", "unavailable", "Unavailable", " UNAVAILABLE "}) {
    for (const Role role : {Role::execution, Role::availability, Role::power_state, Role::spindle_speed}) {
      const Reading reading = Vocabulary().read(role, word);
      EXPECT_TRUE(is_unknown(reading.value)) << word;
      EXPECT_TRUE(reading.standard) << word;
    }
  }
}

TEST(Vocabulary, PowerAndAvailabilityHaveTheirOwnWords) {
  EXPECT_EQ(Vocabulary().read(Role::power_state, "ON").value, 1.0);
  EXPECT_EQ(Vocabulary().read(Role::power_state, "OFF").value, 0.0);
  EXPECT_TRUE(is_unknown(Vocabulary().read(Role::power_state, "STANDBY").value));
  EXPECT_FALSE(Vocabulary().read(Role::power_state, "STANDBY").standard);
  EXPECT_EQ(Vocabulary().read(Role::availability, "AVAILABLE").value, 1.0);
}

// Trap 18 of mtconnect.md: empty, text, NaN.
TEST(Vocabulary, NotNumbersAreUnknownAndOdd) {
  for (const char* text :
       {"", " ", "NaN", "nan", "inf", "-inf", "1e999", "12 abc", "0x10", "1,5", "--1", "+-1", ".", "-", "1e"}) {
    const Reading reading = Vocabulary().read(Role::load, text);
    EXPECT_TRUE(is_unknown(reading.value)) << text;
    EXPECT_FALSE(reading.standard) << text;
  }
}

// Trap 17: -0, -500 and 8000 are all values.
TEST(Vocabulary, NumbersOfAnySignAndFormAreRead) {
  EXPECT_EQ(read_number("-500"), -500.0);
  EXPECT_EQ(read_number("8000"), 8000.0);
  EXPECT_EQ(read_number("-0"), 0.0);
  EXPECT_EQ(read_number("+3"), 3.0);
  EXPECT_EQ(read_number(" 12.5 "), 12.5);
  EXPECT_EQ(read_number(".5"), 0.5);
  EXPECT_EQ(read_number("5."), 5.0);
  EXPECT_EQ(read_number("1.481482e-05"), 1.481482e-05);
  EXPECT_EQ(read_number("6685219.00000001"), 6685219.00000001);
  EXPECT_EQ(read_number("0.1234567890123456789"), 0.1234567890123456789);
}

TEST(Vocabulary, Property_NumbersAreTheNearestDoubles) {
  const unsigned seed = 20261125;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  for (int i = 0; i < 20000; ++i) {
    const int digits = static_cast<int>(random() % 8);
    const double wanted = (static_cast<double>(random()) - 2147483648.0) / static_cast<double>(1 + random() % 100000);
    char text[64];
    const auto printed = std::to_chars(text, text + sizeof text, wanted, std::chars_format::fixed, digits);
    const std::string_view view(text, static_cast<std::size_t>(printed.ptr - text));
    double judge = 0;
    std::from_chars(view.data(), view.data() + view.size(), judge);
    ASSERT_EQ(read_number(view), judge) << view;
  }
}

}  // namespace
}  // namespace hw::feeds
