#include "src/catalogue/stopping_fields.h"

#include <gtest/gtest.h>

#include "src/catalogue/shop_files.h"

namespace hw::catalogue {
namespace {

constexpr std::string_view plant_of_stops = R"(format = "hourwright-shop-1"
shift = [ { name = "early", starts = "06:00", ends = "14:00", weekdays = [1, 2, 3, 4, 5] } ]
cell = [ { key = "c", title = "Cell" } ]
person = [ { name = "Ada", skill = "technician" } ]
[plant]
name = "P"
zone = "UTC"
[[machine]]
key = "m"
name = "M"
kind = "lathe"
cell = "c"
)";

Result<Shop> shop_with(std::string_view more) {
  return parse_shop(fmt::format("{}{}\n", plant_of_stops, more), "s.toml");
}

TEST(StoppingFields, AShopThatSaysNothingHasTheDefaults) {
  const auto shop = shop_with("");
  ASSERT_TRUE(shop) << shop.error().message;
  EXPECT_EQ(shop->stopping, Stopping{});
  EXPECT_EQ(shop->stopping.currency, "EUR");
  EXPECT_EQ(shop->cells.at(0).max_down, std::nullopt);
  EXPECT_EQ(shop->machines.at(0).standing_per_hour, std::nullopt);
}

TEST(StoppingFields, WhatAShopSaysIsTakenAndTheRestStays) {
  const auto shop = shop_with(R"(standing_per_hour = 120
[stopping]
currency = "SEK"
isolated = { hours = 1, cost = 400 }
outside_visit = { hours = 1.5, cost = 250 }
[[crew]]
skill = "technician"
[[crew.hours]]
weekdays = [6]
shift = "early"
hours = 6
overtime = 2
premium_per_hour = 15
[[absence]]
person = "Ada"
from = "2026-03-09"
until = "2026-03-13"
why = "holiday"
[[blackout]]
cell = "c"
from = "2026-03-10"
until = "2026-03-10"
why = "hot order"
[[parts_awaited]]
machine = "m"
task = "belt"
on = "2026-03-20"
[stores]
wanted = 0.9
noon = "11:30"
)");
  ASSERT_TRUE(shop) << shop.error().message;
  const Stopping& stopping = shop->stopping;
  EXPECT_EQ(shop->machines.at(0).standing_per_hour, 120);
  EXPECT_EQ(stopping.currency, "SEK");
  EXPECT_EQ(stopping.isolated, (StopSetUp{1, 400}));
  EXPECT_EQ(stopping.powered_at_rest, Stopping{}.powered_at_rest);
  EXPECT_EQ(stopping.outside_visit, (OutsideVisit{1.5, 250}));
  EXPECT_EQ(stopping.crews.at(0).hours.at(0), (CrewHours{{6}, "early", 6, 2, 15}));
  EXPECT_EQ(stopping.absences.at(0).person, "Ada");
  EXPECT_EQ(stopping.blackouts.at(0).cell, "c");
  EXPECT_EQ(print(stopping.parts_awaited.at(0).on), "2026-03-20");
  StoresRules rules;
  rules.wanted = 0.9;
  rules.noon_minute = 11 * 60 + 30;
  EXPECT_EQ(stopping.stores, rules);
}

TEST(StoppingFields, AMistakeIsNamedByItsFieldWithWhatWouldBeRight) {
  struct Case {
    std::string_view text;
    std::string_view field;
    std::string_view says;
  };
  const std::vector<Case> cases{
      {"[stopping]\ncurrency = \"euro\"", "s.toml, stopping, line 14, currency", "ISO 4217"},
      {"[stopping]\nstanding_per_hour = -1", "standing_per_hour", "from 0 to 1000000"},
      {"[stopping]\nlabour_per_hour = nan", "labour_per_hour", "from 0"},
      {"[stopping]\novertime_per_hour = inf", "overtime_per_hour", "from 0"},
      {"[stopping]\nmoving = \"much\"", "moving", "it is a number"},
      {"[stopping]\npowered_at_rest = { hours = 25 }", "powered_at_rest", "from 0 to 24"},
      {"[stopping]\npowered_at_rest = { ours = 2 }", "ours", "no such field"},
      {"[stopping]\nisolated = { hours = 0.1, cost = 90 }", "isolated", "at least"},
      {"[stopping]\noutside_visit = { hours = 1, cost = -250 }", "cost", "from 0"},
      {"[stopping]\noutside_visit = { hours = 9, cost = 250 }", "stopping", "longer than any shift"},
      {"standing_per_hour = -3", "standing_per_hour", "from 0"},
      {"[[crew]]\nskill = \"boss\"", "crew 1, line 14, skill", "technician"},
      {"[[crew]]\nskill = \"technician\"\n[[crew]]\nskill = \"technician\"", "crew", "stands twice"},
      {"[[crew]]\nskill = \"technician\"\nhours = [ { weekdays = [8], shift = \"early\", hours = 1 } ]", "weekdays",
       "1 (Monday)"},
      {"[[crew]]\nskill = \"technician\"\nhours = [ { weekdays = [1], shift = \"night\", hours = 1 } ]", "crew",
       "no shift \"night\""},
      {"[[crew]]\nskill = \"technician\"\nhours = [ { weekdays = [1, 1], shift = \"early\", hours = 1 } ]", "hours",
       "stands twice"},
      {"[[crew]]\nskill = \"technician\"\nhours = [ { weekdays = [1], shift = \"early\", hours = nan } ]", "hours",
       "0 to 1,000"},
      {"[[absence]]\nfrom = \"2026-03-09\"\nuntil = \"2026-03-13\"\nwhy = \"x\"", "absence 1", "a skill or a person"},
      {"[[absence]]\nperson = \"Bo\"\nfrom = \"2026-03-09\"\nuntil = \"2026-03-13\"\nwhy = \"x\"", "absence",
       "no person \"Bo\""},
      {"[[absence]]\nperson = \"Ada\"\nfrom = \"2026-03-09\"\nuntil = \"2026-03-08\"\nwhy = \"x\"", "until",
       "is before"},
      {"[[blackout]]\nmachine = \"x\"\nfrom = \"2026-03-09\"\nuntil = \"2026-03-10\"\nwhy = \"x\"", "blackout",
       "no machine \"x\""},
      {"[[blackout]]\ncell = \"x\"\nfrom = \"2026-03-09\"\nuntil = \"2026-03-10\"\nwhy = \"x\"", "blackout",
       "no cell \"x\""},
      {"[[parts_awaited]]\nmachine = \"x\"\ntask = \"t\"\non = \"2026-03-09\"", "parts_awaited", "no machine \"x\""},
      {"[[parts_awaited]]\nmachine = \"m\"\ntask = \"t\"\non = \"soon\"", "parts_awaited 1", "on"},
      {"[stores]\nwanted = 1", "stores, line 14, wanted", "0.5 to 0.9999"},
      {"[stores]\nnoon = \"noon\"", "stores, line 14, noon", "06:00"}};
  for (const Case& one : cases) {
    const auto shop = shop_with(one.text);
    ASSERT_FALSE(shop) << one.text;
    EXPECT_NE(shop.error().message.find(one.field), std::string::npos) << shop.error().message;
    EXPECT_NE(shop.error().message.find(one.says), std::string::npos) << shop.error().message;
  }
}

TEST(StoppingFields, AMachineCannotBeDownLessThanNeverInACell) {
  const std::string text{plant_of_stops};
  const auto at = text.find(" } ]\nperson");
  const auto with = [&](std::string_view max) {
    return parse_shop(text.substr(0, at) + fmt::format(", max_down = {}", max) + text.substr(at), "s.toml");
  };
  EXPECT_EQ(with("1")->cells.at(0).max_down, 1);
  EXPECT_NE(with("-1").error().message.find("0 or more"), std::string::npos);
  EXPECT_NE(with("\"all\"").error().message.find("whole number"), std::string::npos);
}

}  // namespace
}  // namespace hw::catalogue
