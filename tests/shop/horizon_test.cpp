// Due dates, announced changes of use and the day's decisions, from counted hours to the API.

#include <boost/json/value.hpp>

#include "src/service/counter_days.h"
#include "src/service/machine_uses.h"
#include "src/service/use_forecasts.h"
#include "tests/shop/served.h"

namespace hw::shop {
namespace {

// A day of so many hours of work, from the moment at which it begins.
std::string day_of(int hours) {
  return std::string(static_cast<std::size_t>(hours), '#') + std::string(24 - static_cast<std::size_t>(hours), '.');
}

// Weeks of five days of eight hours, from Monday on.
void work_weeks(Scene& scene, int weeks) {
  for (int week = 0; week < weeks; ++week) {
    for (int day = 0; day < 7; ++day) scene.play("mill1 |" + day_of(day < 5 ? 8 : 0) + "|");
  }
}

class Horizon : public testing::Test {
 protected:
  Horizon() {
    work_weeks(scene, 6);
    must(scene.done("grease", 1));
    must(scene.keep());
  }

  service::ForecastView forecast(std::string_view task = "grease") {
    const auto view = must(service::show_horizon(scene.shop(), forecasts, "mill1", scene.now));
    for (const auto& one : view.machines.at(0).tasks) {
      if (one.task == task) return one.forecast;
    }
    ADD_FAILURE() << task << " is not on the horizon";
    return {};
  }

  service::UseChangeEdit change(int id, double factor) const {
    service::UseChangeEdit edit;
    edit.id = id_of(id);
    edit.by = "Ada";
    edit.from = today();
    edit.factor = factor;
    edit.why = "another shift";
    return edit;
  }

  LocalDate today() const { return scene.shop().calendar().zone.date_of(scene.now); }

  Scene scene;
  service::UseForecasts forecasts{scene.shop()};
};

TEST_F(Horizon, FortyHoursAtEightADayAreAWorkingWeek) {
  const auto due = forecast();
  ASSERT_TRUE(due.median && due.first && due.last);
  EXPECT_EQ(due.leads, "spindle");
  EXPECT_GE(*due.median, today() + 3);
  EXPECT_LE(*due.median, today() + 8);
  EXPECT_LE(*due.first, *due.median);
  EXPECT_LE(*due.median, *due.last);
}

TEST_F(Horizon, ChecksOfTheRoundAreNotOnIt) {
  const auto view = must(service::show_horizon(scene.shop(), forecasts, {}, scene.now));
  ASSERT_EQ(view.machines.size(), 2U);
  for (const auto& task : view.machines[0].tasks) EXPECT_NE(task.task, "look");
}

TEST_F(Horizon, AMachineThatDoesNotCountYetHasItsCalendarAndSaysWhy) {
  const auto view = must(service::show_horizon(scene.shop(), forecasts, "mill2", scene.now));
  for (const auto& task : view.machines.at(0).tasks) {
    if (task.task == "grease") {
      EXPECT_TRUE(task.forecast.median);
    }
  }
}

TEST_F(Horizon, ItRestsOnTheCountersOfTheTasksAndTheirDays) {
  const auto uses = must(service::uses_of(scene.shop(), forecasts, *must(scene.shop().find("mill1")), scene.now));
  EXPECT_EQ(uses.size(), 2U) << "operating and spindle";
  EXPECT_TRUE(service::use_in(uses)("spindle"));
  EXPECT_FALSE(service::use_in(uses)("axis"));
  const auto days = must(service::days_of(scene.shop(), "mill1", "spindle", {today() - 7, today() - 1}, scene.now));
  EXPECT_EQ(days.size(), 7U);
}

TEST_F(Horizon, AnHourMoreLearnsNothingAnew) {
  must(scene.shop().find("mill1"))->feed.last_sign_at = scene.now;  // the feed has told the past
  forecast();
  const auto learned = forecasts.learned();
  scene.play("mill1 |#|");
  forecast();
  EXPECT_EQ(forecasts.learned(), learned);
  scene.play("mill1 |" + day_of(8) + "|");
  forecast();
  EXPECT_GT(forecasts.learned(), learned) << "a day that is over belongs to the history";
}

TEST_F(Horizon, AnAnnouncedChangeOfUseMovesTheDatesUntilItIsWithdrawn) {
  const auto before = forecast();
  must(service::announce_use(scene.shop(), change(2, 2), scene.now));
  EXPECT_LT(*forecast().median, *before.median);
  must(service::withdraw_use(scene.shop(), id_of(2), {id_of(3), "Ada", {}, {}}, scene.now));
  EXPECT_EQ(*forecast().median, *before.median);
  must(service::announce_use(scene.shop(), change(4, 0), scene.now));
  EXPECT_EQ(forecast().leads, "1 month") << "without use only the calendar is left";
}

TEST_F(Horizon, AnAnnouncedChangeSurvivesARestartAndARepeat) {
  must(service::announce_use(scene.shop(), change(2, 1.5), scene.now));
  must(service::announce_use(scene.shop(), change(2, 1.5), scene.now));
  const auto median = *forecast().median;
  scene.reopen();
  const auto changes = service::show_use_changes(scene.shop()).changes;
  ASSERT_EQ(changes.size(), 1U);
  EXPECT_EQ(changes[0].factor, 1.5);
  service::UseForecasts anew(scene.shop());
  const auto view = must(service::show_horizon(scene.shop(), anew, "mill1", scene.now));
  for (const auto& one : view.machines.at(0).tasks) {
    if (one.task == "grease") {
      EXPECT_EQ(*one.forecast.median, median);
    }
  }
}

TEST_F(Horizon, ImpossibleChangesOfUseAreRefused) {
  auto edit = change(2, -1);
  EXPECT_FALSE(service::announce_use(scene.shop(), edit, scene.now));
  edit = change(2, 1);
  edit.until = edit.from - 1;
  EXPECT_FALSE(service::announce_use(scene.shop(), edit, scene.now));
  edit = change(2, 1);
  edit.machine = "mill9";
  EXPECT_FALSE(service::announce_use(scene.shop(), edit, scene.now));
  edit = change(2, 1);
  edit.why = "";
  EXPECT_FALSE(service::announce_use(scene.shop(), edit, scene.now));
  EXPECT_TRUE(service::show_use_changes(scene.shop()).changes.empty());
}

TEST_F(Horizon, TheWorkingSaysWhatTheDateRestsOn) {
  const auto view = must(service::show_forecast(scene.shop(), forecasts, "mill1", "grease", scene.now));
  ASSERT_EQ(view.triggers.size(), 2U);
  const auto& spindle = view.triggers[0];
  EXPECT_NEAR(*spindle.left, 40, 1e-6);
  EXPECT_GE(spindle.history->size(), 41U);
  double sum = 0;
  for (const auto& day : *spindle.history) sum += day.used;
  EXPECT_NEAR(sum, 6 * 40, 1e-6) << "every counted hour is in the history";
  EXPECT_FALSE(spindle.basis.empty());
  double before = 0;
  for (const auto& step : *spindle.chances) {
    EXPECT_GE(step.chance, before);
    before = step.chance;
  }
  EXPECT_TRUE(view.quantiles.p50);
}

TEST_F(Horizon, TheBacktestCountsForecastsThatCameTrue) {
  const auto view = must(service::show_backtest(forecasts, "mill1", "spindle", scene.now));
  EXPECT_FALSE(view.refused);
  ASSERT_GT(view.last, 0);
  EXPECT_LE(view.last_inside80, view.last);
  EXPECT_GE(view.last_inside80 * 2, view.last) << "five days of eight hours are easily foretold";
}

TEST_F(Horizon, TodayNamesTheOverdueTaskSinceWhenAndTheRoundToWalk) {
  service::PartStudies studies(scene.shop());
  service::StoresStudies stores(scene.shop(), forecasts, studies);
  const auto view = must(service::show_today(scene.shop(), forecasts, studies, stores, scene.now));
  const auto overdue = std::find_if(view.items.begin(), view.items.end(), [](const auto& item) {
    return item.kind == "task" && item.task->key == "filter" && item.machine == "mill1";
  });
  ASSERT_NE(overdue, view.items.end());
  EXPECT_EQ(overdue->task->state, "overdue");
  EXPECT_EQ(overdue->overdue_since, LocalDate::of(2026, 3, 3)) << "9 h were used up on the second day";
}

TEST_F(Served, DueDatesAreToldInTheContractsWords) {
  const std::string machine = "/api/machines/{machine}", m1 = "/api/machines/mill1";
  EXPECT_EQ(answer_of("GET", "/api/horizon", "/api/horizon").at("machines").as_array().size(), 2U);
  answer_of("GET", machine + "/tasks/{task}/forecast", m1 + "/tasks/grease/forecast");
  answer_of("GET", machine + "/backtest", m1 + "/backtest?counter=operating");
  answer_of("GET", "/api/today", "/api/today");
  answer_of("POST", "/api/use-changes", "/api/use-changes",
            done_body(1, R"(,"from":"2026-03-09","factor":1.5,"why":"a third shift")"));
  EXPECT_EQ(answer_of("GET", "/api/use-changes", "/api/use-changes").at("changes").as_array().size(), 1U);
  answer_of("POST", "/api/use-changes/{change}/withdraw", "/api/use-changes/" + id_of(1) + "/withdraw", done_body(2));
  expect_problem(ask("GET", "/api/horizon?machine=mill9"), 404, "mill9");
  expect_problem(ask("GET", m1 + "/backtest"), 400, "counter");
  expect_problem(ask("GET", m1 + "/tasks/no/forecast"), 404, "no");
  expect_problem(ask("POST", "/api/use-changes", done_body(3, R"(,"from":"2026-03-09","factor":11,"why":"x")")), 400,
                 "factor");
}

}  // namespace
}  // namespace hw::shop
