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
const std::vector<double> young = {210, 260, 300, 340, 380, 420}, old = {810, 960, 1000, 1140, 1280, 1420};

TEST(GroupLives, TellPlantsApartThatDiffer) {
  GroupLives lives;
  lives.keep_only({"north", "south", "west"});
  lives.take("north", "North works", {part(young, 2)}, six);
  EXPECT_TRUE(lives.parts(six).parts.empty()) << "one plant alone is nothing to compare";
  lives.take("south", "South works", {part(old, 2)}, six);
  const auto told = lives.parts(six);
  EXPECT_EQ(told.plants, 3);
  EXPECT_EQ(told.plants_read, 2);
  ASSERT_EQ(told.parts.size(), 1u);
  EXPECT_EQ(told.parts[0].verdict, "differ");
  EXPECT_EQ(told.parts[0].fails_most, "North works");
  EXPECT_EQ(told.parts[0].fails_least, "South works");
  EXPECT_EQ(told.parts[0].failures, 24);
  const auto study = *lives.part(belt, six);
  ASSERT_EQ(study.plants.size(), 2u);
  EXPECT_GT(study.pooled->scale, study.plants[0].fit->scale);
  EXPECT_GT(study.plants[1].fit->b10, study.plants[0].fit->b10);
  EXPECT_NEAR(*study.plants[0].expected + *study.plants[1].expected, 24, 1e-9);
  EXPECT_LT(*study.plants[0].best_by_own->interval, *study.plants[1].best_by_own->interval);
  EXPECT_EQ(study.plants[0].best_by_pooled->interval, study.plants[1].best_by_pooled->interval) << "the same costs";
}

TEST(GroupLives, OfPlantsThatDoNotDifferNobodyStandsOut) {
  GroupLives lives;
  lives.take("north", "North works", {part(young)}, six);
  lives.take("south", "South works", {part(young)}, six);
  const auto told = lives.parts(six).parts;
  EXPECT_EQ(told.at(0).verdict, "no difference seen");
  EXPECT_FALSE(told.at(0).fails_most);
}

TEST(GroupLives, WithoutFailuresNothingIsKnown) {
  GroupLives lives;
  PlantPart runs = part({});
  runs.lives = {{.lower = 400}};
  lives.take("north", "North works", {runs}, six);
  lives.take("south", "South works", {runs}, six);
  const auto study = *lives.part(belt, six);
  EXPECT_EQ(study.part.verdict, "unknown");
  EXPECT_TRUE(study.no_log_rank && study.no_weibull && study.not_pooled && study.plants[0].refused);
  EXPECT_FALSE(study.plants[0].best_by_own);
}

TEST(GroupLives, APlantOnAnotherCounterIsLeftOutByName) {
  PlantPart other = part(old);
  other.counter = "cutting";
  GroupLives lives;
  lives.take("east", "East works", {other}, six);
  lives.take("north", "North works", {part(young)}, six);
  EXPECT_FALSE(lives.part(belt, six)) << "one is left on each counter";
  lives.take("south", "South works", {part(young)}, six);
  const auto study = *lives.part(belt, six);
  EXPECT_THAT(study.on_other_counter, ElementsAre("East works"));
  EXPECT_EQ(study.part.plants, 2);
}

TEST(GroupLives, FollowWhatAPlantHasAndWhichPlantsThereAre) {
  GroupLives lives;
  lives.take("north", "North works", {part(young)}, six);
  lives.take("south", "South works", {part(young)}, six);
  lives.take("south", "South works", {part(young, 3)}, six + Duration::seconds(60));
  EXPECT_EQ(lives.part(belt, six)->part.failures, 24);
  EXPECT_EQ(lives.part(belt, six)->as_of, six + Duration::seconds(60));
  lives.keep_only({"north"});
  EXPECT_EQ(lives.part(belt, six).error().code, ErrorCode::not_found);
  EXPECT_EQ(lives.parts(six).plants_read, 1);
}

TEST(GroupLives, TellASurvivalOfBoundedLength) {
  std::vector<double> ages;
  for (int n = 1; n <= 500; ++n) ages.push_back(n);
  const PlantPart much = part(ages);
  const auto study = study_group_part({{"a", "A", &much}, {"b", "B", &much}}, six);
  ASSERT_TRUE(study);
  EXPECT_EQ(study->survival.size(), survival_points_most);
  EXPECT_EQ(study->plants[0].survival.back().age, 500);
  EXPECT_EQ(study->plants[0].survival.back().survival, 0);
}

}  // namespace
}  // namespace hw::service
