#include <functional>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "src/rehearsal/shop_year.h"
#include "src/rehearsal/years_test.h"

namespace hw::rehearsal {
namespace {

std::string says(const std::function<void(ShopYear&)>& spoil) {
  Task task = with_part(task_every("seal", 100));
  ShopYear shop = even_shop({task});
  shop.lives = {{"seal", {{{2, 300}, 1}}}};
  EXPECT_TRUE(check(shop));
  spoil(shop);
  const auto checked = check(shop);
  return checked ? "accepted" : checked.error().message;
}

TEST(ShopYear, WhatMeansNothingIsNamed) {
  using testing::StartsWith;
  const auto task = [](ShopYear& shop) -> Task& { return shop.machines[0].tasks[0]; };
  EXPECT_THAT(says([](auto& s) { s.days = 0; }), StartsWith("days: 0 must be 1 to"));
  EXPECT_THAT(says([](auto& s) { s.first_weekday = 8; }), StartsWith("first_weekday: 8"));
  EXPECT_THAT(says([](auto& s) { s.closed = {365}; }), StartsWith("closed: 365 must be 0 to 364"));
  EXPECT_THAT(says([](auto& s) { s.isolated.cost = -1; }), StartsWith("isolated.cost: -1 must be 0 to"));
  EXPECT_THAT(says([](auto& s) { s.machines.push_back(s.machines[0]); }), "machines[1].key: \"m1\" stands twice");
  EXPECT_THAT(says([](auto& s) { s.machines[0].use.clear(); }), StartsWith("machines[0].use: either"));
  EXPECT_THAT(says([](auto& s) { s.machines[0].use[0].scatter = 2.5; }), StartsWith("machines[0].use.scatter: 2.5"));
  EXPECT_THAT(says([](auto& s) {
                s.machines[0].use.clear(), s.machines[0].past = {{1, {3}}};
              }),
              "machines[0].past: each weekday needs a day at least");
  EXPECT_THAT(says([&](auto& s) { task(s).intervals.clear(); }),
              "machines[0].tasks[0].intervals: one at least is needed");
  EXPECT_THAT(says([&](auto& s) { task(s).intervals[0].counter = "axis"; }),
              "machines[0].tasks[0].intervals[0].counter: the machine m1 has no counter \"axis\"");
  EXPECT_THAT(says([&](auto& s) { task(s).intervals[0].length = 0; }),
              "machines[0].tasks[0].intervals[0].length: 0 must be above 0");
  EXPECT_THAT(says([&](auto& s) { task(s).intervals[0].length = 0.4; }),
              "machines[0].tasks[0].intervals[0].length: 0.4 is used up more than 24 times on a day with 10");
  EXPECT_THAT(says([&](auto& s) { task(s).intervals[0].heads_up = 100; }),
              "machines[0].tasks[0].intervals[0].heads_up: 100 must be 0 to below the length");
  EXPECT_THAT(says([&](auto& s) { task(s).minutes = -5; }), StartsWith("machines[0].tasks[0].minutes: -5"));
  EXPECT_THAT(says([&](auto& s) { task(s).part->life = "pump"; }),
              "machines[0].tasks[0].part.life: there is no life \"pump\"");
  EXPECT_THAT(says([](auto& s) { s.lives[0].believed[0].share = 0.9; }),
              "lives[0].believed: the shares must sum up to 1, not 0.9");
  EXPECT_THAT(says([](auto& s) { s.lives[0].believed[0].life.shape = 0; }),
              "lives[0].believed: shape and scale must be above 0");
  EXPECT_THAT(says([](auto& s) { s.lives[0].believed[0].life.scale = 0.1; }),
              "machines[0].tasks[0].part.life: with shape 2 and scale 0.1 it fails more than 24 times a day");
}

TEST(ShopYear, AMachineWithoutCountersHasTheCalendar) {
  ShopYear shop;
  Task task;
  task.key = "year";
  task.intervals = {{std::nullopt, 100, 0, 0}};
  shop.machines = {{"m1", "oven", {}, {}, {}, 0, {task}}};
  ASSERT_TRUE(check(shop));
  EXPECT_EQ(play_years(shop, 1)[0].tasks_done, 3);
}

}  // namespace
}  // namespace hw::rehearsal
