// Years of the shop played under other intervals, from counted hours to the API.

#include "src/service/rehearsals.h"

#include "src/service/year_ahead.h"
#include "tests/shop/served.h"

namespace hw::shop {
namespace {

class RehearsedYears : public testing::Test {
 protected:
  // Five weeks of 8 h from Monday to Friday.
  RehearsedYears() {
    for (int week = 0; week < 5; ++week) {
      for (int day = 0; day < 7; ++day) {
        scene.play(day < 5 ? "mill1 |########................|" : "mill1 |........................|");
      }
    }
    must(scene.done("filter", 1));
    scene.play("mill1 |###|");
    must(scene.keep());
  }

  service::LivesByPart lives() const { return {{{"mill", "filter"}, {"operating", {{life::Weibull{3, 12}, 1}}}}}; }
  service::YearAhead ahead(const service::LivesByPart& lives = {}) {
    return must(year_ahead(scene.shop(), forecasts, lives, scene.now));
  }
  service::RehearsalEdit change(std::string task, double interval, std::optional<std::string> counter) const {
    return {{{"mill", std::move(task), std::move(counter), interval}}, 50, 3};
  }

  Scene scene;
  service::UseForecasts forecasts{scene.shop()};
  service::PartStudies studies{scene.shop()};
  service::Rehearsals rehearsals{scene.shop(), forecasts, studies};
};

TEST_F(RehearsedYears, TheYearHasTheTasksAsTheyStandAndDaysToDrawFrom) {
  const auto year = ahead(lives());
  ASSERT_TRUE(rehearsal::check(year.shop)) << rehearsal::check(year.shop).error().message;
  const rehearsal::Machine& mill = year.shop.machines.at(0);
  ASSERT_EQ(mill.tasks.size(), 2u) << "the round of each shift is no task of it";
  const rehearsal::Task& filter = mill.tasks[0];
  EXPECT_EQ(filter.intervals[0].length, 8);
  EXPECT_EQ(filter.intervals[0].heads_up, 2);
  EXPECT_NEAR(filter.intervals[0].used, 3, 0.01);
  EXPECT_EQ(filter.energy, catalogue::EnergyState::powered_at_rest);
  EXPECT_EQ(mill.tasks[1].intervals.size(), 2u);
  EXPECT_NEAR(mill.tasks[1].intervals[1].used, 36, 6) << "days since it counts, of a month";
  EXPECT_GE(mill.past.size(), 34u);
  for (const auto& day : mill.past) EXPECT_NEAR(day.used.at(0), day.weekday < 6 ? 8 : 0, 0.01);
  EXPECT_EQ(year.without_use, 1) << "nobody knows how the other mill is used";
}

// What a failure costs is what part_costs.h says, its standing apart: here at 80 an hour.
TEST_F(RehearsedYears, APartWhoseLifeIsKnownFailsAtItsCosts) {
  const auto year = ahead(lives());
  EXPECT_EQ(year.parts, 1);
  const rehearsal::Task& filter = year.shop.machines.at(0).tasks.at(0);
  ASSERT_TRUE(filter.part);
  EXPECT_NEAR(filter.part->age, 3, 0.01);
  const auto& task = scene.shop().machines()[0]->record.tasks[0].task;
  const auto costs = service::part_costs(task, scene.shop().record().stopping, 80);
  EXPECT_NEAR(filter.part->failed_cost + 80 * filter.part->failed_standing_hours, costs.failed(), 1e-9);
  EXPECT_FALSE(ahead().shop.machines.at(0).tasks.at(0).part);
}

TEST_F(RehearsedYears, ALongerIntervalOfWorkAloneIsFewerStopsInEveryYear) {
  const auto view = must(rehearsals.play(change("filter", 16, "operating"), scene.now));
  EXPECT_EQ(view.years, 50);
  EXPECT_EQ(view.machines, 2);
  EXPECT_EQ(view.tasks, 3);
  EXPECT_EQ(view.parts, 0);
  EXPECT_GT(view.present.tasks_done.mean, 200);
  EXPECT_LT(view.difference.stops.q95, 0);
  EXPECT_EQ(view.cheaper, 1);
  EXPECT_NEAR(view.changed.cost.mean - view.present.cost.mean, view.difference.cost.mean, 1e-6);
  const auto again = must(rehearsals.play(change("filter", 16, "operating"), scene.now));
  EXPECT_EQ(again.difference.cost.q50, view.difference.cost.q50);
}

TEST_F(RehearsedYears, WhatCannotBePlayedIsRefused) {
  const auto says = [&](const service::RehearsalEdit& edit) {
    const auto played = rehearsals.play(edit, scene.now);
    return played ? "played" : played.error().message;
  };
  EXPECT_EQ(says({{}, 50, 3}), "changes: name one at least");
  auto many = change("filter", 16, "operating");
  many.years = 2001;
  EXPECT_EQ(says(many), "years: 2001 must be 10 to 2000");
  EXPECT_EQ(says(change("filter", -1, "operating")), "changes[0].interval: -1 must be above 0");
  EXPECT_EQ(says(change("belt", 16, "operating")),
            "changes[0]: no machine of the kind \"mill\" has a task \"belt\" with an interval on operating");
}

class RehearsalApi : public Served {};

TEST_F(RehearsalApi, PlaysAChangeOfTheCalendar) {
  const auto played = answer_of("POST", "/api/rehearsals", "/api/rehearsals",
                                R"({"changes":[{"kind":"mill","task":"grease","interval":60}],"years":20})");
  EXPECT_EQ(played.at("years"), 20);
  EXPECT_LT(played.at("difference").at("stops").at("mean").to_number<double>(), -5);
  expect_problem(ask("POST", "/api/rehearsals", R"({"changes":[],"years":20})"), 400, "changes");
}

}  // namespace
}  // namespace hw::shop
