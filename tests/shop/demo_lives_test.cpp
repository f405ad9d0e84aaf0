// The demo's past: parts that were replaced for years.

#include "src/simulate/demo_lives.h"

#include <gtest/gtest.h>

namespace hw::simulate {
namespace {

struct DemoLives : testing::Test {
  DemoLives() {
    machine.machine.key = "g1";
    machine.machine.kind = "cylindrical-grinder";
    service::TaskRecord record;
    record.task.key = "filter-hydraulic";
    record.task.title = "Change the filter";
    record.task.triggers = {catalogue::CounterTrigger{"operating", 1000, 100, 100}};
    machine.tasks = {record};
    shop.calendar.zone = *Zone::find("Europe/Berlin");
    shop.people = {{"Ada", catalogue::Skill::technician, false}};
    service::Entry last;
    last.id = "last";
    last.kind = "task done";
    last.machine = "g1";
    last.task = "filter-hydraulic";
    last.at = last.happened_at = now - Duration::hours(24 * 10);
    last.counters = use.totals_ago(10);
    done = {last};
  }

  // Ten hours a day, 30,000 by now.
  static service::CounterDays ten_hours_a_day(LocalDate today) {
    service::CounterDays days{"operating", {}};
    for (int ago = 90; ago >= 0; --ago) {
      days.days.push_back({today - ago, 10LL * 3600 * 1'000'000'000, 0, 0, 0});
    }
    return days;
  }

  const Instant now = *parse_instant("2026-11-25T12:00:00Z");
  const LocalDate today = LocalDate::of(2026, 11, 25);
  const DemoUse use{{{"operating", 30'000}}, {ten_hours_a_day(today)}, today, 90};
  service::MachineRecord machine;
  service::ShopRecord shop;
  std::vector<service::Entry> done;
};

TEST_F(DemoLives, GoBackYearsAndEachEndIsFoundSomehow) {
  const auto told = demo_lives(machine, shop, use, done, 7, now);
  ASSERT_GT(told.size(), 5u);
  EXPECT_TRUE(done[0].body.doing) << "the last doing says how it found the part before";
  int failed = 0;
  for (std::size_t i = 0; i < told.size(); ++i) {
    EXPECT_LT(told[i].at, i == 0 ? done[0].at : told[i - 1].at) << "one before the other";
    EXPECT_LT(told[i].counters.at("operating"), 30'000);
    EXPECT_EQ(told[i].body.doing.has_value(), i + 1 < told.size()) << "nobody knows of the first one's part";
    failed += told[i].body.doing && told[i].body.doing->as_found == service::AsFound::failed;
  }
  EXPECT_GT(failed, 0);
  EXPECT_LT(failed, static_cast<int>(told.size()));
}

TEST_F(DemoLives, AreTheSameForTheSameSeed) {
  auto again = done;
  const auto one = demo_lives(machine, shop, use, done, 7, now);
  const auto other = demo_lives(machine, shop, use, again, 7, now);
  ASSERT_EQ(one.size(), other.size());
  for (std::size_t i = 0; i < one.size(); ++i) EXPECT_EQ(one[i].id, other[i].id);
}

TEST_F(DemoLives, AreNoneOfOtherParts) {
  machine.machine.kind = "lathe";
  EXPECT_TRUE(demo_lives(machine, shop, use, done, 7, now).empty());
}

}  // namespace
}  // namespace hw::simulate
