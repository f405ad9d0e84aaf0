#include "src/life/part_lives.h"

#include <gtest/gtest.h>

namespace hw::life {
namespace {

TEST(PartLives, EndAsThePartWasFound) {
  const std::vector<Doing> doings{{.at = 1000},
                                  {.at = 1400, .found = Found::good},
                                  {.at = 1900, .found = Found::worn},
                                  {.at = 2500, .found = Found::failed},
                                  {.at = 3200, .found = Found::failed, .is_planned = true},
                                  {.at = 3900, .found = Found::failed, .is_planned = true, .failed_at = 3850}};
  const auto [lives, left_out] = part_lives(doings, 4000);
  ASSERT_EQ(lives.size(), 6U);
  EXPECT_TRUE(is_suspended(lives[0].life));
  EXPECT_EQ(lives[0].life.lower, 400);
  EXPECT_TRUE(is_suspended(lives[1].life));
  EXPECT_TRUE(is_exact(lives[2].life));
  EXPECT_EQ(lives[2].life.lower, 600);
  EXPECT_EQ(lives[3].life.lower, 0);
  EXPECT_EQ(lives[3].life.upper, 700);
  EXPECT_TRUE(is_exact(lives[4].life));
  EXPECT_EQ(lives[4].life.lower, 650);
  EXPECT_TRUE(is_suspended(lives[5].life));
  EXPECT_EQ(lives[5].life.lower, 100);
  EXPECT_EQ(lives[5].doing, doings.size());
  ASSERT_EQ(left_out.size(), 1U);
  EXPECT_EQ(left_out[0].why, LeftOut::age_unknown);
}

TEST(PartLives, LeaveOutWhatNobodySaidAndWhatHadNoUse) {
  const std::vector<Doing> doings{{.at = 100}, {.at = 300}, {.at = 300, .found = Found::failed}};
  const auto [lives, left_out] = part_lives(doings, 300);
  EXPECT_TRUE(lives.empty());
  ASSERT_EQ(left_out.size(), 3U);
  EXPECT_EQ(left_out[1].why, LeftOut::not_said);
  EXPECT_EQ(left_out[2].why, LeftOut::no_use);
}

// What was used between the first doing and now is the sum of all lives that ended exactly or still run.
TEST(PartLives, SumUpToTheUseBetweenTheFirstDoingAndNow) {
  const std::vector<Doing> doings{{.at = 50},
                                  {.at = 170, .found = Found::worn},
                                  {.at = 400, .found = Found::failed},
                                  {.at = 777, .found = Found::good}};
  double sum = 0;
  for (const PartLife& one : part_lives(doings, 1000).lives) sum += one.life.lower;
  EXPECT_EQ(sum, 950);
}

TEST(PartLives, AreNoneOfAPlaceThatWasNeverWorkedOn) {
  const auto [lives, left_out] = part_lives({}, 1000);
  EXPECT_TRUE(lives.empty());
  EXPECT_TRUE(left_out.empty());
}

TEST(PartLives, EndWithTheLastDoingWhereThePlaceIsNotLookedAfterAnyMore) {
  const std::vector<Doing> doings{{.at = 100}, {.at = 300, .found = Found::worn}};
  EXPECT_EQ(part_lives(doings, std::nullopt).lives.size(), 1U);
}

}  // namespace
}  // namespace hw::life
