// Readings as they were written down, to where they go: lines, working, what is used up, and what Today asks.

#include <gmock/gmock.h>

#include "src/service/known_readings.h"
#include "src/service/reading_lines.h"
#include "src/service/reading_series.h"
#include "src/service/use_rates_of.h"
#include "tests/shop/served.h"
#include "tests/shop/stopping.h"
#include "tests/shop/walking.h"

namespace hw::shop {
namespace {

constexpr std::string_view air_check = "air/supply air";

// An operator reads the air once a day; "gauge" is read in stops, "oil" is topped up in them.
class Readings : public testing::Test {
 protected:
  Readings() : scene("2026-03-02T06:00:00Z", "Europe/Berlin", round_tasks) {}

  // One value a day, from the day after now on; hours later it is the next value's day.
  void read_daily(const std::vector<double>& values) {
    const Walker ada{scene};
    for (const double value : values) {
      scene.now = scene.now + Duration::hours(24);
      ++id_;
      must(ada.answer(id_, 1000 + id_, read(std::string{air_check}, value)));
    }
  }

  service::ReadingsView shown() const { return must(show_readings(scene.shop(), "mill1", scene.now)); }
  service::ReadingLineView air() const { return line_of(shown()); }
  static service::ReadingLineView line_of(const service::ReadingsView& view) {
    for (const auto& line : view.readings) {
      if (line.what == "supply air") return line;
    }
    ADD_FAILURE() << "no line of the supply air";
    return {};
  }
  service::ReadingWorkingView working() const {
    return must(show_reading(scene.shop(), "mill1", "air", "supply air", scene.now));
  }
  // What Today asks about readings of mill1.
  std::vector<service::ReadingLineView> asked() const {
    service::UseForecasts forecasts(scene.shop());
    service::PartStudies studies(scene.shop());
    service::StoresStudies stores(scene.shop(), forecasts, studies);
    std::vector<service::ReadingLineView> lines;
    for (const auto& item : must(show_today(scene.shop(), forecasts, studies, stores, scene.now)).items) {
      if (item.kind == "reading") lines.push_back(*item.reading);
    }
    return lines;
  }

  Scene scene;
  int id_ = 0;
};

TEST_F(Readings, ThatNobodyReadAreLinesThatSayWhyTheyHaveNoTrend) {
  const auto line = air();
  EXPECT_EQ(line.count, 0);
  EXPECT_FALSE(line.last);
  EXPECT_FALSE(line.direction);
  EXPECT_EQ(line.refusal->code, "reading-few");
  EXPECT_EQ(line.refusal->numbers.at("count"), 0);
  const auto view = working();
  EXPECT_TRUE(view.points.empty());
  EXPECT_TRUE(view.crossings.empty());
  EXPECT_FALSE(view.chart);
}

TEST_F(Readings, AFallingPressureMeetsItsWarningLimitFirst) {
  read_daily({6.2, 6.15, 6.1, 6.1, 6.0, 5.95, 5.9, 5.9, 5.8, 5.75});
  const auto line = air();
  EXPECT_EQ(line.direction, "falling");
  EXPECT_NEAR(*line.slope, -0.05, 0.005);
  ASSERT_TRUE(line.crossing);
  EXPECT_EQ(line.crossing->limit, "warning");
  EXPECT_EQ(line.crossing->side, "below");
  EXPECT_EQ(line.crossing->at, 5.5);
  const LocalDate today = scene.shop().calendar().zone.date_of(scene.now);
  // 0.25 bar at 0.05 bar a day.
  EXPECT_GE(*line.crossing->median, today + 3);
  EXPECT_LE(*line.crossing->median, today + 7);
  EXPECT_LE(*line.crossing->first, *line.crossing->median);
  EXPECT_GE(*line.crossing->last, *line.crossing->median);
}

TEST_F(Readings, TheWorkingHasEveryPointItsEntryAndWhatTheLimitsAreMetBy) {
  read_daily({6.2, 6.15, 6.1, 6.1, 6.0, 5.95, 5.9, 5.9, 5.8, 5.4});
  const auto view = working();
  ASSERT_EQ(view.points.size(), 10U);
  EXPECT_EQ(view.points.front().value, 6.2);
  EXPECT_EQ(view.points.front().entry, id_of(1));
  EXPECT_EQ(view.points.back().state, "warning");
  ASSERT_EQ(view.crossings.size(), 4U);
  EXPECT_EQ(view.crossings[1].limit, "warning");
  EXPECT_TRUE(view.crossings[1].beyond);
  EXPECT_FALSE(view.crossings[1].median);
  EXPECT_FALSE(view.crossings[0].beyond) << "5.4 is not below the action limit of 5";
  EXPECT_EQ(view.reading.crossing->limit, "action") << "the next one is what comes";
  EXPECT_LT(view.trend->slope_high, 0);
  EXPECT_TRUE(view.trend->exact);
  EXPECT_GT(view.chart->sigma, 0);
}

TEST_F(Readings, WhatWasReadAnewOnTheSameWalkCountsOnce) {
  const Walker ada{scene};
  must(ada.answer(1, 99, read(std::string{air_check}, 5.2)));
  must(ada.answer(2, 99, read(std::string{air_check}, 6.2)));
  EXPECT_EQ(air().count, 1);
  EXPECT_EQ(air().last->value, 6.2);
}

TEST_F(Readings, OfOneDayCountByTheirMedian) {
  read_daily({6.0});
  const Walker ada{scene};
  must(ada.answer(50, 60, read(std::string{air_check}, 6.2)));
  const auto view = working();
  EXPECT_EQ(view.points.size(), 2U);
  ASSERT_EQ(view.days.size(), 1U);
  EXPECT_EQ(view.days[0].value, 6.1);
}

TEST_F(Readings, TodayAsksOnceUntilAFindingSpeaksOfIt) {
  read_daily({6.2, 6.15, 6.1, 6.1, 6.0, 5.95, 5.9, 5.9, 5.8, 5.75});
  ASSERT_EQ(asked().size(), 1U);
  EXPECT_EQ(asked()[0].what, "supply air");
  service::FindingEdit edit;
  edit.id = id_of(900);
  edit.by = "Ada";
  edit.what = "The air falls";
  edit.severity = service::Severity::watch;
  edit.check = air_check;
  must(make_finding(scene.shop(), "mill1", edit, scene.now));
  EXPECT_TRUE(asked().empty());
}

TEST_F(Readings, TodayAsksAboutOneBeyondItsActionLimitWithoutAnyTrend) {
  read_daily({4.8});
  ASSERT_EQ(asked().size(), 1U);
  EXPECT_EQ(asked()[0].last->state, "action");
}

TEST_F(Readings, TodayIsSilentWhereNothingDrifts) {
  read_daily({6.0, 6.1, 5.9, 6.0, 6.1, 5.9, 6.0, 6.1, 6.0, 5.9});
  EXPECT_EQ(air().direction, "none seen");
  EXPECT_TRUE(asked().empty());
}

TEST_F(Readings, SurviveARestart) {
  read_daily({6.2, 6.15, 6.1, 6.1, 6.0, 5.95});
  const auto before = air();
  scene.reopen();
  EXPECT_EQ(air().count, before.count);
  EXPECT_EQ(air().crossing->median, before.crossing->median);
}

TEST_F(Readings, WhatIsNotThereIsRefused) {
  EXPECT_FALSE(show_readings(scene.shop(), "mill9", scene.now));
  const auto no_reading = show_reading(scene.shop(), "mill1", "air", "oil", scene.now);
  ASSERT_FALSE(no_reading);
  EXPECT_EQ(no_reading.error().code, ErrorCode::not_found);
  EXPECT_EQ(no_reading.error().saying->code, "no-reading");
}

TEST_F(Readings, CoolantIsUsedUpOverHoursOfWorkAndOneFillNeedsAnother) {
  const Walker ada{scene};
  const auto filled = [&](double litres) {
    auto answer = good("coolant", "top up");
    answer.quantity = litres;
    ++id_;
    must(ada.answer(id_, 1000 + id_, std::move(answer)));
  };
  const auto coolant = [&] { return shown().uses.at(0); };
  scene.play("mill1 |####|");
  filled(10);
  EXPECT_EQ(coolant().consumable, "coolant");
  EXPECT_EQ(coolant().refusal->code, "fills-few");
  scene.play("mill1 |####|");
  filled(8);
  scene.play("mill1 |########|");
  filled(16);
  const auto use = coolant();
  ASSERT_EQ(use.fills.size(), 3U);
  EXPECT_NEAR(*use.over_all, 2, 1e-6) << "24 l over 12 h after the first fill";
  EXPECT_NEAR(*use.fills[1].rate, 2, 1e-6);
  EXPECT_EQ(use.direction, "none seen");
}

TEST_F(Readings, CrossingsAreOfEveryLimitOnceThereAreFourDays) {
  const catalogue::TaskReading air_limits{"supply air", "bar", {5.5, 6.5}, {5, {}}};
  std::vector<due::DatedReading> days;
  for (int day = 0; day < 3; ++day) days.push_back({LocalDate::of(2026, 3, 2) + day, 6.0 - 0.1 * day});
  EXPECT_TRUE(service::crossings_of(days, air_limits).empty());
  days.push_back({LocalDate::of(2026, 3, 5), 5.72});
  const auto crossings = service::crossings_of(days, air_limits);
  ASSERT_EQ(crossings.size(), 3U);
  const auto view = service::view_of(crossings[1]);
  EXPECT_EQ(view.limit, "warning");
  EXPECT_EQ(view.side, "below");
  EXPECT_GT(*view.median, LocalDate::of(2026, 3, 5));
}

TEST(Consumables, FollowFromTheAssemblyThatIsToppedUp) {
  catalogue::Task task;
  task.assembly = "lubrication";
  EXPECT_EQ(service::consumable_of(task), condition::Consumable::way_oil);
  EXPECT_FALSE(service::fill_unit(task)) << "it is no top up";
  task.work = catalogue::WorkType::top_up;
  task.parts = {{"Way oil", 2, "l"}};
  EXPECT_EQ(service::fill_unit(task), "l");
  task.assembly = "pallet";
  EXPECT_EQ(service::consumable_of(task), condition::Consumable::other);
}

// The values of tasks that are done in stops stand beside those of rounds.
TEST(ReadingsOfStops, AreOfTheirSeriesAndNameTheirStop) {
  Scene scene("2026-03-02T06:00:00Z", "Europe/Berlin", round_tasks);
  const Stopping stops{scene};
  must(stops.agree(1, {"air"}));
  scene.now = scene.now + Duration::hours(2);
  auto edit = stops.closing(10, 1, {"air"});
  edit.done[0].readings = std::vector<service::ReadValue>{{"supply air", "bar", 5.9}};
  must(stops.close(1, edit));
  const auto view = must(show_reading(scene.shop(), "mill1", "air", "supply air", scene.now));
  ASSERT_EQ(view.points.size(), 1U);
  EXPECT_EQ(view.points[0].value, 5.9);
  EXPECT_EQ(view.points[0].stop, id_of(1));
}

// A task as the API takes it, whose round of the shift reads the oil in mm, warning below 20.
constexpr std::string_view oil_task =
    R"(,"title":"Read the oil","assembly":"spindle","work":"inspect","skill":"operator","energy":"powered at rest",)"
    R"("minutes":1,"triggers":[{"calendar":"1 shift"}],"readings":[{"what":"level","unit":"mm","warning":{"min":20}}])";

TEST_F(Served, ReadingsAreToldInTheContractsWords) {
  const std::string machine = "/api/machines/{machine}", m1 = "/api/machines/mill1", oil = m1 + "/readings/" + id_of(1);
  const auto ask_for = [&](const std::string& more) {
    return answer_of("GET", machine + "/readings/{task}", oil + more).as_object();
  };
  answer_of("POST", machine + "/tasks", m1 + "/tasks", done_body(1, oil_task));
  EXPECT_TRUE(ask_for("?what=level").at("points").as_array().empty());
  const Walker ada{scene};
  for (int day = 1; day <= 8; ++day) {
    scene.now = scene.now + Duration::hours(24);
    must(ada.answer(100 + day, 200 + day, read(id_of(1) + "/level", 40 - 2 * day - day % 2, "mm")));
  }
  const auto working = ask_for("?what=level");
  EXPECT_EQ(working.at("points").as_array().size(), 8U);
  EXPECT_EQ(working.at("trend").at("direction").as_string(), "falling");
  EXPECT_EQ(working.at("crossings").as_array().size(), 1U);
  EXPECT_EQ(answer_of("GET", machine + "/readings", m1 + "/readings").at("readings").as_array().size(), 1U);
  EXPECT_EQ(answer_of("GET", "/api/today", "/api/today").at("items").as_array().empty(), false);
  expect_problem(ask("GET", oil), 400, "what");
  expect_problem(ask("GET", m1 + "/readings/filter?what=air"), 404, "air");
  expect_problem(ask("GET", "/api/machines/mill9/readings"), 404, "mill9");
}

}  // namespace
}  // namespace hw::shop
