#include "src/web/plant_host.h"

#include <gtest/gtest.h>

#include "src/service/plants.h"

namespace hw::web {
namespace {

Reach group_at(std::initializer_list<const char*> names) {
  std::vector<certificates::HostName> parsed;
  for (const char* name : names) parsed.push_back(*certificates::parse_host_name(name));
  return Reach(std::move(parsed));
}

TEST(PlantHost, APlantIsNamedBelowTheGroup) {
  const Reach group = group_at({"shops.example", "shops.local"});
  EXPECT_EQ(plant_of_host("north.shops.example", group), "north");
  EXPECT_EQ(plant_of_host("North.Shops.Example", group), "north");
  EXPECT_EQ(plant_of_host("north-2.shops.local", group), "north-2");
  EXPECT_EQ(plant_of_host("north.localhost", group), "north");
}

TEST(PlantHost, TheGroupsOwnNamesAreTheGroups) {
  const Reach group = group_at({"shops.example"});
  for (const char* host : {"shops.example", "localhost", "127.0.0.1", "[::1]"}) {
    EXPECT_EQ(plant_of_host(host, group), service::group_key) << host;
  }
}

TEST(PlantHost, OtherNamesAreNobodys) {
  const Reach group = group_at({"shops.example"});
  for (const char* host : {"", ".shops.example", "north", "elsewhere.example", "north.elsewhere.example",
                           "a.north.shops.example", "northshops.example", "shops.example.evil.example"}) {
    EXPECT_EQ(plant_of_host(host, group), std::nullopt) << host;
  }
}

TEST(PlantHost, OtherDevicesReachAPlantByItsOwnNamesAtTheGroupsLines) {
  Reach group = group_at({"shops.example"});
  group.set_lines({8470, 0});
  const auto north = reach_of_plant("north", group);
  EXPECT_TRUE(north->has("north.shops.example"));
  EXPECT_FALSE(north->has("shops.example")) << "the group's pages are another site";
  EXPECT_FALSE(north->has("south.shops.example"));
  EXPECT_EQ(north->first_address(), "http://north.shops.example:8470");
  EXPECT_TRUE(reach_of_plant(service::group_key, group)->has("shops.example"));
}

}  // namespace
}  // namespace hw::web
