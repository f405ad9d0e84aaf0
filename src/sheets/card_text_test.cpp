#include "src/sheets/card_text.h"

#include <gtest/gtest.h>

#include "src/sheets/card_words.h"

namespace hw::sheets {
namespace {

constexpr auto english = CardLanguage::english;
constexpr auto german = CardLanguage::german;

TEST(CardText, NumbersHaveTheDecimalSignOfTheLanguage) {
  EXPECT_EQ(print_number(0.02, english), "0.02");
  EXPECT_EQ(print_number(0.02, german), "0,02");
  EXPECT_EQ(print_number(3, german), "3");
}

TEST(CardText, AnHourAndMoreIsWrittenWithHours) {
  EXPECT_EQ(print_minutes(59.4), "59 min");
  EXPECT_EQ(print_minutes(59.6), "1 h 00 min");
  EXPECT_EQ(print_minutes(245), "4 h 05 min");
  EXPECT_EQ(print_clock(5), "0:05");
  EXPECT_EQ(print_clock(600), "10:00");
}

TEST(CardText, DaysAreWrittenInTheLanguage) {
  EXPECT_EQ(print_day(LocalDate::of(2026, 11, 28), english), "Sat 28 Nov 2026");
  EXPECT_EQ(print_day(LocalDate::of(2026, 11, 28), german), "Sa 28.11.2026");
  EXPECT_EQ(print_day(LocalDate::of(2027, 3, 1), english), "Mon 1 Mar 2027");
}

TEST(CardText, LimitsSayWhatIsRightAndWhenToAct) {
  const auto limits = [](catalogue::Bounds warning, catalogue::Bounds action, CardLanguage language) {
    return print_limits({"pH", "pH", warning, action}, language);
  };
  EXPECT_EQ(limits({8.5, 9.3}, {8, {}}, english), "8.5 to 9.3, act below 8");
  EXPECT_EQ(limits({8.5, 9.3}, {8, 10}, german), "8,5 bis 9,3, handeln unter 8 oder über 10");
  EXPECT_EQ(limits({5.5, {}}, {}, english), "at least 5.5");
  EXPECT_EQ(limits({{}, 60}, {{}, 70}, german), "höchstens 60, handeln über 70");
  EXPECT_EQ(limits({}, {}, english), "");
}

TEST(CardWords, EveryWordOfAListHasItsGermanOne) {
  using namespace catalogue;
  EXPECT_EQ(word_of(WorkType::top_up, german), "nachfüllen");
  EXPECT_EQ(word_of(WorkType::overhaul, german), "überholen");
  EXPECT_EQ(word_of(Skill::outside_service, german), "Fremdfirma");
  EXPECT_EQ(word_of(EnergyState::isolated, german), "freigeschaltet und gesichert");
  EXPECT_EQ(word_of(EnergySource::other, german), "Sonstiges");
  EXPECT_EQ(word_of(EnergySource::coolant, english), "coolant");
}

}  // namespace
}  // namespace hw::sheets
