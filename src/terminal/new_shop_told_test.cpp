#include "src/terminal/new_shop_told.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace hw::terminal {
namespace {

TEST(NewShopTold, SaysEachMachineWithItsTasksAndItsFeed) {
  service::NewShop shop;
  shop.shop.plant = "Works";
  shop.shop.feeds = {{"feed-1", "http://127.0.0.1:5000"}};
  shop.machines.resize(2);
  shop.machines[0].machine.key = "m1";
  shop.machines[0].feed = "feed-1";
  shop.machines[0].device = "lathe-1";
  shop.machines[0].tasks.resize(7);
  shop.machines[1].machine.key = "m2";
  const std::string told = told_of_new_shop(shop);
  EXPECT_THAT(told, testing::HasSubstr("Works: 0 shifts"));
  EXPECT_THAT(told, testing::ContainsRegex("m1 .* 7 tasks; lathe-1 at http://127.0.0.1:5000"));
  EXPECT_THAT(told, testing::ContainsRegex("m2 .*no feed"));
}

}  // namespace
}  // namespace hw::terminal
