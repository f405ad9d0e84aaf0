#include "src/catalogue/work_words.h"

#include <set>
#include <string>

#include <gtest/gtest.h>

namespace hw::catalogue {
namespace {

TEST(WorkWords, EveryValueHasAWordOfItsOwnThatReadsBack) {
  std::set<std::string_view> words;
  for (int i = 0; i <= static_cast<int>(WorkType::overhaul); ++i) {
    const auto value = static_cast<WorkType>(i);
    EXPECT_EQ(parse_work_type(word_of(value)), value);
    words.insert(word_of(value));
  }
  for (int i = 0; i <= static_cast<int>(Skill::outside_service); ++i) {
    const auto value = static_cast<Skill>(i);
    EXPECT_EQ(parse_skill(word_of(value)), value);
    words.insert(word_of(value));
  }
  for (int i = 0; i <= static_cast<int>(EnergyState::isolated); ++i) {
    const auto value = static_cast<EnergyState>(i);
    EXPECT_EQ(parse_energy_state(word_of(value)), value);
    words.insert(word_of(value));
  }
  for (int i = 0; i <= static_cast<int>(EnergySource::other); ++i) {
    const auto value = static_cast<EnergySource>(i);
    EXPECT_EQ(parse_energy_source(word_of(value)), value);
    words.insert(word_of(value));
  }
  EXPECT_EQ(words.size(), 22u);
}

TEST(WorkWords, AnUnknownWordIsRefusedWithTheKnownOnes) {
  EXPECT_NE(parse_work_type("oil").error().message.find("lubricate, top up"), std::string::npos);
  EXPECT_NE(parse_skill("Operator").error().message.find("operator, technician, outside service"), std::string::npos);
  EXPECT_NE(parse_energy_state("").error().message.find("isolated"), std::string::npos);
}

}  // namespace
}  // namespace hw::catalogue
