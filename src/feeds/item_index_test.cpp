#include "src/feeds/item_index.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

namespace hw::feeds {
namespace {

using counters::Item;
using counters::MachineModel;
using counters::Role;

Item item(std::string id, std::string name, Role role, std::string source = "") {
  Item made;
  made.id = std::move(id);
  made.name = std::move(name);
  made.source = std::move(source);
  made.role = role;
  made.representation = "VALUE";
  return made;
}

MachineModel machine(std::string name, std::string uuid, std::vector<Item> items) {
  return {"id-" + name, name, uuid, std::move(items)};
}

TEST(ItemIndex, UuidGoesBeforeName) {
  const std::vector<MachineModel> machines = {machine("mill", "u1", {}), machine("lathe", "u2", {})};
  const ItemIndex index(machines);
  EXPECT_EQ(index.machine("u2", "mill"), 1U);
  EXPECT_EQ(index.machine("other", "mill"), 0U);
  EXPECT_EQ(index.machine("", "lathe"), 1U);
  EXPECT_EQ(index.machine("", ""), none_found);
}

TEST(ItemIndex, KeysAreNamesThenIdsThenSources) {
  const std::vector<MachineModel> machines = {
      machine("mill", "",
              {item("a", "speed", Role::spindle_speed), item("speed", "load", Role::load, "a"),
               item("c", "", Role::execution, "exec")})};
  const ItemIndex index(machines);
  EXPECT_EQ(index.by_key(0, "speed").item, 0U);
  EXPECT_EQ(index.by_key(0, "a").item, 0U);
  EXPECT_EQ(index.by_key(0, "exec").item, 2U);
  EXPECT_EQ(index.by_id(0, "speed").item, 1U);
  EXPECT_FALSE(index.by_id(0, "exec").found());
  EXPECT_FALSE(index.by_id(0, "").found());
}

TEST(ItemIndex, ThousandsOfItemsAreAllFound) {
  MachineModel big = machine("big", "", {});
  for (int i = 0; i < 5000; ++i) big.items.push_back(item(fmt::format("id_{}", i), fmt::format("n{}", i), Role::load));
  const ItemIndex index(std::span(&big, 1));
  for (std::uint32_t i = 0; i < 5000; ++i) {
    ASSERT_EQ(index.by_id(0, fmt::format("id_{}", i)).item, i);
    ASSERT_EQ(index.by_key(0, fmt::format("n{}", i)).item, i);
  }
  EXPECT_FALSE(index.by_id(0, "id_5000").found());
}

TEST(ItemIndex, CoordinatesAreOneDataItem) {
  const std::vector<MachineModel> machines = {
      machine("mill", "",
              {item("p/x", "pos/x", Role::position), item("p/y", "pos/y", Role::position),
               item("p/z", "pos/z", Role::position), item("q/x", "", Role::load)})};
  const ItemIndex index(machines);
  EXPECT_EQ(index.by_id(0, "p").coordinates, 3);
  EXPECT_EQ(index.by_key(0, "pos").item, 0U);
  EXPECT_EQ(index.by_id(0, "q/x").coordinates, 1);
  EXPECT_FALSE(index.by_id(0, "p/x").found());
}

TEST(ItemIndex, FieldsBehindAnShdrKeyFollowTheItem) {
  Item condition = item("c", "c", Role::none), message = item("m", "m", Role::none),
       series = item("t", "t", Role::none);
  condition.category = "CONDITION";
  message.type = "MESSAGE";
  series.representation = "TIME_SERIES";
  const MachineModel model = machine("mill", "", {condition, message, series, item("v", "v", Role::load)});
  const ItemIndex index(std::span(&model, 1));
  EXPECT_EQ(index.by_key(0, "c").shdr_fields, 5);
  EXPECT_EQ(index.by_key(0, "m").shdr_fields, 2);
  EXPECT_EQ(index.by_key(0, "t").shdr_fields, 3);
  EXPECT_EQ(index.by_key(0, "v").shdr_fields, 1);
}

}  // namespace
}  // namespace hw::feeds
