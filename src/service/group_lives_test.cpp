#include "src/service/group_lives.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "src/service/group_part.h"

namespace hw::service {
namespace {

using testing::ElementsAre;

const Instant six = *parse_instant("2026-03-02T06:00:00Z");
const PartName belt{"lathe", "belt"};

// Parts that failed at those ages, each on so many machines.
PlantPart part(const std::vector<double>& ages, int count = 1) {
  PlantPart part;
  part.name = belt;
  part.title = "Change the belt";
  part.counter = "operating";
  part.unit = "h";
  part.machines = 2;
  part.interval = 900;
  part.costs = {100, 1000};
  for (const double age : ages) {
    for (int n = 0; n < count; ++n) part.lives.push_back({age + n, age + n});
  }
  return part;
}
void study(GroupLives& lives, Instant now = six) {
  while (lives.study_next(now)) {
  }
}
const std::vector<double> young = {210, 260, 300, 340, 380, 420}, old = {810, 960, 1000, 1140, 1280, 1420};

TEST(GroupLives, TellPlantsApartThatDiffer) {
  GroupLives lives;
  lives.keep_only({"north", "south", "west"});
  lives.take("north", "North works", {part(young, 2)});
  study(lives);
  EXPECT_TRUE(lives.parts(six).parts.empty()) << "one plant alone is nothing to compare";
  lives.take("south", "South works", {part(old, 2)});
  study(lives);
  const auto told = lives.parts(six);
  EXPECT_EQ(told.plants, 3);
  EXPECT_EQ(told.plants_read, 2);
  ASSERT_EQ(told.parts.size(), 1u);
  EXPECT_EQ(told.parts[0].verdict, "differ");
  EXPECT_EQ(told.parts[0].fails_most, "North works");
  EXPECT_EQ(told.parts[0].fails_least, "South works");
  EXPECT_EQ(told.parts[0].failures, 24);
  const auto both = *lives.part(belt, six);
  ASSERT_EQ(both.plants.size(), 2u);
  EXPECT_GT(both.pooled->scale, both.plants[0].fit->scale);
  EXPECT_GT(both.plants[1].fit->b10, both.plants[0].fit->b10);
  EXPECT_NEAR(*both.plants[0].expected + *both.plants[1].expected, 24, 1e-9);
  EXPECT_LT(*both.plants[0].best_by_own->interval, *both.plants[1].best_by_own->interval);
  EXPECT_EQ(both.plants[0].best_by_pooled->interval, both.plants[1].best_by_pooled->interval) << "the same costs";
}

TEST(GroupLives, OfPlantsThatDoNotDifferNobodyStandsOut) {
  GroupLives lives;
  lives.take("north", "North works", {part(young)});
  lives.take("south", "South works", {part(young)});
  study(lives);
  const auto told = lives.parts(six).parts;
  EXPECT_EQ(told.at(0).verdict, "no difference seen");
  EXPECT_FALSE(told.at(0).fails_most);
}

TEST(GroupLives, WithoutFailuresNothingIsKnown) {
  GroupLives lives;
  PlantPart runs = part({});
  runs.lives = {{.lower = 400}};
  lives.take("north", "North works", {runs});
  lives.take("south", "South works", {runs});
  study(lives);
  const auto told = *lives.part(belt, six);
  EXPECT_EQ(told.part.verdict, "unknown");
  EXPECT_TRUE(told.no_log_rank && told.no_weibull && told.not_pooled && told.plants[0].refused);
  EXPECT_FALSE(told.plants[0].best_by_own);
}

TEST(GroupLives, APlantOnAnotherCounterIsLeftOutByName) {
  PlantPart other = part(old);
  other.counter = "cutting";
  GroupLives lives;
  lives.take("east", "East works", {other});
  lives.take("north", "North works", {part(young)});
  study(lives);
  EXPECT_FALSE(lives.part(belt, six)) << "one is left on each counter";
  lives.take("south", "South works", {part(young)});
  study(lives);
  const auto told = *lives.part(belt, six);
  EXPECT_THAT(told.on_other_counter, ElementsAre("East works"));
  EXPECT_EQ(told.part.plants, 2);
}

TEST(GroupLives, FollowWhatAPlantHasAndWhichPlantsThereAre) {
  const Instant later = six + Duration::seconds(60);
  GroupLives lives;
  lives.take("north", "North works", {part(young)});
  lives.take("south", "South works", {part(young)});
  study(lives);
  lives.take("south", "South works", {part(young, 3)});
  study(lives, later);
  EXPECT_EQ(lives.part(belt, six)->part.failures, 24);
  EXPECT_EQ(lives.part(belt, six)->as_of, later);
  lives.take("south", "Southern works", {part(young, 3)});
  study(lives);
  EXPECT_EQ(lives.part(belt, six)->plants[1].title, "Southern works");
  lives.keep_only({"north"});
  study(lives);
  EXPECT_EQ(lives.part(belt, six).error().code, ErrorCode::not_found);
  EXPECT_EQ(lives.parts(six).plants_read, 1);
}

TEST(GroupLives, AreNotStudiedAnewForPartsThatGrewALittleOlder) {
  PlantPart runs = part(young);
  runs.lives.push_back({.lower = 500});
  GroupLives lives;
  lives.take("north", "North works", {runs});
  lives.take("south", "South works", {runs});
  study(lives);
  for (int hour = 1; hour <= 9; ++hour) {
    runs.lives.back().lower = 500 + hour;
    lives.take("south", "South works", {runs});
    EXPECT_FALSE(lives.study_next(six)) << hour;
  }
  runs.lives.back().lower = 520;
  lives.take("south", "South works", {runs});
  EXPECT_TRUE(lives.study_next(six)) << "little by little is not forgotten";
}

TEST(GroupLives, TellASurvivalOfBoundedLength) {
  std::vector<double> ages;
  for (int n = 1; n <= 500; ++n) ages.push_back(n);
  const PartOfPlant much = with_own_figures(part(ages));
  const auto told = study_group_part({&much, &much}, six);
  ASSERT_TRUE(told);
  EXPECT_EQ(told->survival.size(), survival_points_most);
  EXPECT_EQ(told->plants[0].survival.back().age, 500);
  EXPECT_EQ(told->plants[0].survival.back().survival, 0);
}

}  // namespace
}  // namespace hw::service
