#include "src/service/standing_answers.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

Instant minute(int n) { return Instant{} + Duration::seconds(60 * n); }

AnswerRecord answer(std::string entry, std::string check, int happened, std::optional<int> device = {}) {
  AnswerRecord record;
  record.entry = std::move(entry);
  record.walk = "w";
  record.happened_at = minute(happened);
  if (device) record.device_at = minute(*device);
  record.answer.check = std::move(check);
  return record;
}

std::string entries(const std::vector<const AnswerRecord*>& answers) {
  std::string text;
  for (const AnswerRecord* one : answers) text += one->entry;
  return text;
}

TEST(StandingAnswers, OnOneWalkTheLatestByTheDevicesClockStands) {
  WalkRecord walk;
  walk.answers = {answer("a", "oil", 9, 3), answer("b", "oil", 8, 4), answer("c", "air", 1, 1)};
  EXPECT_EQ(entries(standing_answers(walk)), "cb");
  std::swap(walk.answers[0], walk.answers[1]);
  EXPECT_EQ(entries(standing_answers(walk)), "cb");
}

TEST(StandingAnswers, BetweenWalksTheLatestToHappenStands) {
  WalkRecord ada, bo;
  ada.answers = {answer("a", "oil", 5, 50), answer("b", "air", 6)};
  bo.answers = {answer("c", "oil", 7, 2)};
  EXPECT_EQ(entries(standing_answers({&ada, &bo})), "bc");
  EXPECT_EQ(entries(standing_answers({&bo, &ada})), "bc");
}

TEST(StandingAnswers, OfOneMillisecondTheHigherIdStandsInAnyOrder) {
  WalkRecord walk;
  walk.answers = {answer("b", "oil", 5), answer("a", "oil", 5)};
  EXPECT_EQ(entries(standing_answers(walk)), "b");
  std::swap(walk.answers[0], walk.answers[1]);
  EXPECT_EQ(entries(standing_answers(walk)), "b");
}

TEST(StandingAnswers, ReadingsThatWereCorrectedOnTheirWalkAreLeftOut) {
  auto other = answer("c", "oil", 1);
  other.walk = "v";
  const auto left = without_corrected({answer("b", "oil", 9), answer("a", "oil", 8), other});
  ASSERT_EQ(left.size(), 2u);
  EXPECT_EQ(left.at(0).entry, "b");
  EXPECT_EQ(left.at(1).entry, "c");
}

}  // namespace
}  // namespace hw::service
