#include "src/service/found_shop.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

catalogue::Task task_on(std::string key, std::string counter) {
  catalogue::Task task;
  task.key = std::move(key);
  task.title = "Look";
  task.assembly = "spindle";
  task.triggers = {catalogue::CounterTrigger{std::move(counter), 40, 0, 0}};
  return task;
}

catalogue::TaskSet mill_set() {
  catalogue::TaskSet set;
  set.kind = "mill";
  set.title = "Mill";
  set.assemblies = {{"spindle", "Spindle"}};
  set.points = {{1, "spindle", "Nose", 0, 0}};
  set.tasks = {task_on("look", "spindle")};
  return set;
}

catalogue::Machine mill(std::string key, std::string agent = "") {
  catalogue::Machine machine;
  machine.key = std::move(key);
  machine.kind = "mill";
  machine.agent = std::move(agent);
  return machine;
}

struct FoundShop : testing::Test {
  FoundShop() { shop.machines = {mill("m1")}; }
  std::string refusal() {
    const auto made = found_shop(shop, sets, Instant{7});
    EXPECT_FALSE(made);
    return made ? "" : made.error().message;
  }
  catalogue::Shop shop;
  std::vector<catalogue::TaskSet> sets{mill_set()};
};

TEST_F(FoundShop, AMachineHasTheTasksOfItsKindAndItsOwn) {
  shop.machines.at(0).own_tasks = {task_on("mine", "operating")};
  const auto made = *found_shop(shop, sets, Instant{7});
  ASSERT_EQ(made.machines.at(0).tasks.size(), 2u);
  EXPECT_FALSE(made.machines.at(0).tasks.at(0).is_own);
  EXPECT_TRUE(made.machines.at(0).tasks.at(1).is_own);
  EXPECT_EQ(made.machines.at(0).tasks.at(1).began_at, Instant{7});
  EXPECT_EQ(made.machines.at(0).device, "m1");
  EXPECT_FALSE(made.machines.at(0).feed);
}

TEST_F(FoundShop, MachinesOfOneAgentShareItsFeed) {
  shop.agent = "http://10.0.0.7:5000";
  shop.machines = {mill("m1"), mill("m2"), mill("m3", "http://10.0.0.8:5000")};
  const auto made = *found_shop(shop, sets, Instant{});
  ASSERT_EQ(made.shop.feeds.size(), 2u);
  EXPECT_EQ(made.machines.at(0).feed, made.machines.at(1).feed);
  EXPECT_EQ(made.machines.at(2).feed, made.shop.feeds.at(1).key);
}

TEST_F(FoundShop, ADeviceOfAnAgentIsOneMachine) {
  shop.agent = "http://10.0.0.7:5000";
  shop.machines = {mill("m1"), mill("m2")};
  shop.machines.at(1).device = "m1";
  EXPECT_NE(refusal().find("machine m2, device: \"m1\""), std::string::npos);
}

TEST_F(FoundShop, WhatWouldNeverCountOrNeverBeReachedIsRefused) {
  shop.machines.at(0).own_tasks = {task_on("mine", "opperating")};
  EXPECT_NE(refusal().find("opperating"), std::string::npos);
  shop.machines.at(0).own_tasks = {task_on("look", "operating")};
  EXPECT_NE(refusal().find("another task of the machine has this key"), std::string::npos);
  auto astray = task_on("mine", "operating");
  astray.assembly = "turret";
  shop.machines.at(0).own_tasks = {astray};
  EXPECT_NE(refusal().find("turret"), std::string::npos);
  astray = task_on("mine", "operating");
  astray.point = 5;
  shop.machines.at(0).own_tasks = {astray};
  EXPECT_NE(refusal().find("point 5"), std::string::npos);
  shop.machines = {mill("m1", "10.0.0.7")};
  EXPECT_NE(refusal().find("machine m1, agent"), std::string::npos);
  shop.machines = {mill("m1")};
  shop.machines.at(0).fills = {{"spindle S1", "t"}};
  EXPECT_NE(refusal().find("write \"spindle\""), std::string::npos);
  shop.machines.at(0).fills.clear();
  shop.machines.at(0).kind = "loom";
  EXPECT_NE(refusal().find("loom"), std::string::npos);
}

}  // namespace
}  // namespace hw::service
