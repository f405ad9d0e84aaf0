// The machine's plan as people set it up: where its points are, and in which order they are walked past.

#include <gmock/gmock.h>

#include "src/service/plan_edits.h"
#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

using testing::HasSubstr;

Result<service::EntryView> move(Scene& scene, std::vector<service::PointPlace> points, int id) {
  return move_points(scene.shop(), "mill1", {id_of(id), "Ada", std::move(points)}, scene.now);
}

Result<service::EntryView> order(Scene& scene, std::vector<int> points, int id) {
  return change_walk(scene.shop(), "mill1", {id_of(id), "Ada", std::move(points)}, scene.now);
}

TEST(Plan, APointIsWhereItWasMovedAlsoAfterARestart) {
  Scene scene;
  const auto entry = must(move(scene, {{1, 0.25, 0.75}}, 1));
  EXPECT_EQ(entry.kind, "points moved");
  EXPECT_EQ(entry.says, "points moved on the plan: 1 to (0.250, 0.750)");
  for (int i = 0; i < 2; ++i) {
    const auto point = scene.machine().points.at(0);
    EXPECT_EQ(point.number, 1);
    EXPECT_EQ(point.x, 0.25);
    EXPECT_EQ(point.y, 0.75);
    EXPECT_EQ(point.title, "Spindle nose");
    EXPECT_EQ(scene.machine("mill2").points.at(0).x, 0.5);
    scene.reopen();
  }
}

TEST(Plan, TheWalkIsByHandUntilItIsComputedAgain) {
  Scene scene;
  EXPECT_FALSE(scene.machine().walk_by_hand);
  EXPECT_EQ(must(order(scene, {1}, 1)).says, "walking order by hand: 1");
  scene.reopen();
  EXPECT_TRUE(scene.machine().walk_by_hand);
  EXPECT_EQ(scene.machine().walk, std::vector<int>{1});
  EXPECT_EQ(must(order(scene, {}, 2)).says, "walking order: computed from the points' places");
  scene.reopen();
  EXPECT_FALSE(scene.machine().walk_by_hand);
  EXPECT_EQ(scene.machine().walk, std::vector<int>{1});
}

TEST(Plan, TheSameIdAgainIsOneEntry) {
  Scene scene;
  for (int i = 0; i < 5; ++i) must(move(scene, {{1, 0.25, 0.75}}, 1));
  for (int i = 0; i < 5; ++i) must(order(scene, {1}, 2));
  EXPECT_EQ(scene.machine().entries.size(), 2u);
  EXPECT_EQ(order(scene, {1}, 1).error().code, ErrorCode::conflict);
}

TEST(Plan, WhatIsNotOnThePlanIsRefusedAndNothingMoves) {
  Scene scene;
  EXPECT_THAT(move(scene, {{1, 0.25, 0.75}, {7, 0, 0}}, 1).error().message, HasSubstr("has no point 7"));
  EXPECT_THAT(move(scene, {{1, 1.01, 0}}, 1).error().message, HasSubstr("beside the plan"));
  EXPECT_THAT(move(scene, {{1, 0, -0.1}}, 1).error().message, HasSubstr("beside the plan"));
  EXPECT_THAT(move(scene, {{1, 0, 0}, {1, 1, 1}}, 1).error().message, HasSubstr("1 is there twice"));
  EXPECT_THAT(move(scene, {}, 1).error().message, HasSubstr("points: "));
  EXPECT_THAT(order(scene, {1, 1}, 1).error().message, HasSubstr("1 is there twice"));
  EXPECT_THAT(order(scene, {2}, 1).error().message, HasSubstr("has no point 2"));
  EXPECT_EQ(change_walk(scene.shop(), "mill9", {id_of(1), "Ada", {}}, scene.now).error().code, ErrorCode::not_found);
  EXPECT_TRUE(scene.machine().entries.empty());
  EXPECT_EQ(scene.machine().points.at(0).x, 0.5);
}

}  // namespace
}  // namespace hw::shop
