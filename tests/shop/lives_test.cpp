// Lives of parts out of the logbook, and intervals that people move by them.

#include "src/service/lives.h"

#include <gmock/gmock.h>

#include "src/service/lives_of_part.h"
#include "src/service/part_study.h"
#include "tests/shop/stopping.h"

namespace hw::shop {
namespace {

using service::AsFound;
using service::PartName;
using testing::HasSubstr;

// The filter is looked after by operating hours, the guard's window is demanded by safety, the battery by the calendar.
constexpr MoreTasks part_tasks{R"(
[[task]]
key = "window"
title = "Replace the window of the door"
assembly = "spindle"
work = "replace"
skill = "technician"
energy = "isolated"
minutes = 60
trigger = [ { counter = "operating", interval = 20, heads_up = 2, tolerance = 2 } ]
steps = []
reason = "Coolant makes it brittle."
caution = "Isolate and lock first."
parts = []
demanded_by = "safety"
costs = { parts = 300, failed_hours = 8 }

[[task]]
key = "battery"
title = "Replace the battery"
assembly = "spindle"
work = "replace"
skill = "technician"
energy = "powered at rest"
minutes = 10
trigger = [ { calendar = "12 months" } ]
steps = []
reason = "Positions are lost."
caution = "Keep the power on."
parts = []
)"};

struct Lives : testing::Test {
  Scene scene{"2026-03-02T06:00:00Z", "Europe/Berlin", part_tasks};
  Stopping stops{scene};
  service::UseForecasts forecasts{scene.shop()};
  service::PartStudies studies{scene.shop()};
  int next_id = 100;

  int replace(std::string_view task, std::optional<AsFound> found, std::string_view machine = "mill1") {
    service::DoneEdit edit;
    edit.id = id_of(++next_id);
    edit.by = "Ada";
    edit.as_found = found;
    must(service::mark_done(scene.shop(), machine, task, edit, scene.now));
    return next_id;
  }
  // Works for that many hours, then the part is replaced.
  void live(int hours, std::optional<AsFound> found, std::string_view task = "filter") {
    scene.play("mill1 |" + std::string(static_cast<std::size_t>(hours), '#') + "|");
    replace(task, found);
  }
  std::vector<service::SeenLifeView> lives(const std::string& task = "filter") { return study(task).lives; }
  service::PartStudyView study(const std::string& task = "filter", service::PartQuery query = {}) {
    return must(service::show_part(scene.shop(), studies, forecasts, {"mill", task}, query, scene.now));
  }
  // Lives of which enough have failed to say something.
  void live_a_while() {
    for (const int hours : {1, 7, 8, 5, 8, 6, 8, 4, 8, 6}) {
      live(hours, hours == 1 ? std::nullopt : std::optional{hours == 8 ? AsFound::worn : AsFound::failed});
    }
  }
  service::IntervalEdit edit(double interval, int id = 900) {
    service::IntervalEdit edit;
    edit.id = id_of(id);
    edit.by = "Ada";
    edit.interval = interval;
    edit.why = "they fail before";
    edit.places = {{"mill1", 1}, {"mill2", 1}};
    return edit;
  }
  Result<service::IntervalMovedView> move(const service::IntervalEdit& edit, const std::string& task = "filter") {
    return service::move_interval(scene.shop(), studies, forecasts, {"mill", task}, edit, scene.now);
  }
  double interval_of(std::string_view task, std::string_view machine) {
    return *scene.task(task, machine).triggers.at(0).interval;
  }
};

TEST_F(Lives, EndAsThePartWasFound) {
  live(3, std::nullopt);
  live(4, AsFound::good);
  live(5, AsFound::failed);
  scene.play("mill1 |##|");
  const auto seen = lives();
  ASSERT_EQ(seen.size(), 3u);
  EXPECT_NEAR(seen[0].lower, 4, 1e-9);
  EXPECT_FALSE(seen[0].upper);
  EXPECT_EQ(seen[0].found, AsFound::good);
  EXPECT_NEAR(*seen[1].upper, 5, 1e-9);
  EXPECT_EQ(seen[1].lower, *seen[1].upper);
  EXPECT_NEAR(seen[2].lower, 2, 1e-9);
  EXPECT_FALSE(seen[2].entry) << "it is at work";
  const auto left_out = study().left_out;
  ASSERT_EQ(left_out.size(), 1u);
  EXPECT_EQ(left_out[0].why, "age unknown");
}

TEST_F(Lives, EndSomeTimeBeforeWhereThePartWasFoundFailedInAStop) {
  live(3, std::nullopt);
  scene.play("mill1 |######|");
  must(stops.agree(1, {"filter"}));
  auto closing = stops.closing(10, 1, {"filter"});
  closing.done[0].as_found = AsFound::failed;
  must(stops.close(1, closing));
  const auto seen = lives();
  ASSERT_EQ(seen.size(), 1u);
  EXPECT_EQ(seen[0].lower, 0);
  EXPECT_NEAR(*seen[0].upper, 6, 1e-9);
}

TEST_F(Lives, EndWhenTheFindingWasMadeThatTheTaskWasToSettle) {
  live(3, std::nullopt);
  scene.play("mill1 |####|");
  service::FindingEdit finding;
  finding.id = id_of(50);
  finding.by = "Ada";
  finding.what = "The pump starves";
  finding.severity = service::Severity::stop_the_machine;
  finding.task = "filter";
  must(service::make_finding(scene.shop(), "mill1", finding, scene.now));
  live(2, AsFound::failed);
  const auto seen = lives();
  ASSERT_EQ(seen.size(), 1u);
  EXPECT_NEAR(seen[0].lower, 4, 1e-9);
  EXPECT_NEAR(*seen[0].upper, 4, 1e-9);
}

TEST_F(Lives, LeaveOutWhatNobodySaidWhatWasTakenBackAndWhatWasCorrected) {
  live(3, std::nullopt);
  live(4, std::nullopt);
  live(5, AsFound::worn);
  must(scene.undo(next_id, 60));
  live(1, AsFound::worn);
  service::CorrectionEdit correction;
  correction.id = id_of(61);
  correction.by = "Ada";
  correction.says = "it was the other filter";
  must(service::correct_entry(scene.shop(), id_of(next_id), correction, scene.now));
  const auto view = study();
  EXPECT_TRUE(view.lives.empty());
  ASSERT_EQ(view.left_out.size(), 3u);
  EXPECT_EQ(view.left_out[1].why, "not said");
  EXPECT_EQ(view.left_out[2].why, "corrected");
  EXPECT_EQ(view.part.refused->saying.code, "life-no-failure");
}

TEST_F(Lives, OfAPartByTheCalendarAreCountedInDays) {
  replace("battery", std::nullopt);
  scene.now = scene.now + Duration::hours(24 * 100);
  replace("battery", AsFound::worn);
  const auto view = study("battery");
  EXPECT_EQ(view.part.unit, "d");
  EXPECT_FALSE(view.part.counter);
  ASSERT_EQ(view.lives.size(), 1u);
  EXPECT_NEAR(view.lives[0].lower, 100, 1e-9);
}

TEST_F(Lives, AreStudiedAnewWhenOneIsAddedAndNotOtherwise) {
  live_a_while();
  const PartName part{"mill", "filter"};
  const auto first = must(studies.of(part, scene.now));
  replace("look", std::nullopt);
  EXPECT_EQ(must(studies.of(part, scene.now)), first) << "another task was done";
  live(6, AsFound::failed);
  EXPECT_NE(must(studies.of(part, scene.now)), first);
}

TEST_F(Lives, OfferAnIntervalWithWhatItWouldSave) {
  live_a_while();
  const auto view = study("filter", {.planned = 10, .failed = 1000, .interval = 5});
  ASSERT_TRUE(view.fit);
  EXPECT_EQ(view.part.failures, 5);
  EXPECT_GT(view.fit->shape, 1);
  ASSERT_TRUE(view.part.move);
  EXPECT_LT(view.part.move->interval, 8);
  ASSERT_TRUE(view.asked);
  EXPECT_EQ(view.asked->interval, 5);
  EXPECT_LT(view.asked->saving_5, view.asked->saving_95);
  EXPECT_TRUE(view.costs.is_asked);
  EXPECT_FALSE(view.cost_curve.empty());
}

TEST_F(Lives, CostsNamedInTheTaskCount) {
  const auto window = study("window").costs;
  EXPECT_EQ(window.parts, 300);
  EXPECT_FALSE(window.is_hours_assumed);
  EXPECT_NEAR(window.failed - window.planned, window.set_up - window.set_up_share + window.failed_standing, 1e-9);
  EXPECT_TRUE(study("filter").costs.is_hours_assumed);
}

TEST_F(Lives, AMovedIntervalHoldsOnEveryMachineNamedAndTheLogbookKeepsWhy) {
  live_a_while();
  const auto moved = must(move(edit(4)));
  ASSERT_EQ(moved.entries.size(), 2u);
  EXPECT_EQ(interval_of("filter", "mill1"), 4);
  EXPECT_EQ(interval_of("filter", "mill2"), 4);
  EXPECT_EQ(*scene.task("filter").triggers.at(0).heads_up, 1) << "a quarter of the interval, as before";
  scene.reopen();
  EXPECT_EQ(interval_of("filter", "mill2"), 4);
  const auto entries = stops.entries("interval moved");
  ASSERT_EQ(entries.size(), 2u);
  const auto& told = *entries[0].told->interval;
  EXPECT_EQ(told.from, 8);
  EXPECT_EQ(told.to, 4);
  EXPECT_EQ(told.failures, 5);
  EXPECT_GT(told.shape, 1);
  EXPECT_THAT(entries[0].says, HasSubstr("they fail before"));
  EXPECT_NEAR(*scene.task("filter").costs->wear, told.shape, 1e-12) << "planning takes it over";
}

TEST_F(Lives, AMoveSentTwiceIsOneMove) {
  live_a_while();
  const auto first = must(move(edit(4)));
  const auto again = must(move(edit(4)));
  EXPECT_EQ(first.entries[0].id, again.entries[0].id);
  EXPECT_EQ(scene.task("filter").version, 2);
}

TEST_F(Lives, AMoveOfATaskThatWasChangedMeanwhileMovesNothing) {
  live_a_while();
  auto stale = edit(4);
  stale.places[1].version = 7;
  const auto refused = move(stale);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::conflict);
  EXPECT_EQ(interval_of("filter", "mill1"), 8);
}

TEST_F(Lives, WhatSafetyDemandsIsLengthenedOnlyWithAReason) {
  auto longer = edit(30);
  longer.places = {{"mill1", 1}};
  const auto refused = move(longer, "window");
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().saying->code, "interval-demanded");
  EXPECT_EQ(interval_of("window", "mill1"), 20);
  auto shorter = edit(10, 901);
  shorter.places = {{"mill1", 1}};
  must(move(shorter, "window"));
  longer.places[0].version = 2;
  longer.despite = "the builder allows 30 h with the new material";
  const auto moved = must(move(longer, "window"));
  EXPECT_EQ(moved.entries.at(0).told->interval->demanded_by, "safety");
  EXPECT_THAT(*moved.entries.at(0).told->interval->despite, HasSubstr("the builder allows"));
  EXPECT_FALSE(study("window").part.is_worth_saying);
}

TEST_F(Lives, AMoveThatCannotBeIsRefusedByField) {
  live_a_while();
  const auto says = [&](const service::IntervalEdit& edit, const std::string& task = "filter") {
    const auto refused = move(edit, task);
    return refused ? std::string{} : refused.error().message;
  };
  EXPECT_THAT(says(edit(8)), HasSubstr("interval"));
  EXPECT_THAT(says(edit(-1)), HasSubstr("interval: -1"));
  auto nowhere = edit(4);
  nowhere.places.clear();
  EXPECT_THAT(says(nowhere), HasSubstr("places"));
  auto twice = edit(4);
  twice.places = {{"mill1", 1}, {"mill1", 1}};
  EXPECT_THAT(says(twice), HasSubstr("stands twice"));
  auto silent = edit(4);
  silent.why.clear();
  EXPECT_THAT(says(silent), HasSubstr("why"));
  EXPECT_THAT(says(edit(4), "battery"), HasSubstr("calendar"));
  EXPECT_THAT(says(edit(4), "nothing"), HasSubstr("nothing"));
  EXPECT_EQ(interval_of("filter", "mill1"), 8);
}

TEST_F(Lives, TodayNamesAnIntervalThatIsWorthMoving) {
  for (int times = 0; times < 3; ++times) live_a_while();
  service::StoresStudies stores(scene.shop(), forecasts, studies);
  const auto items = must(service::show_today(scene.shop(), forecasts, studies, stores, scene.now)).items;
  const auto is_worth = study().part.is_worth_saying;
  const bool is_named = std::any_of(items.begin(), items.end(), [](const auto& item) {
    return item.kind == "interval" && item.part->task == "filter";
  });
  EXPECT_EQ(is_named, is_worth);
  EXPECT_TRUE(is_worth) << "half of them fail within eight hours, and a failure costs far more";
}

TEST_F(Lives, EveryPartOfTheShopIsListedThoseWorthMovingFirst) {
  live_a_while();
  const auto parts = must(service::show_parts(scene.shop(), studies, forecasts, scene.now)).parts;
  ASSERT_EQ(parts.size(), 3u);
  EXPECT_EQ(parts[0].task, "filter");
  EXPECT_EQ(parts[0].machines, 2);
}

}  // namespace
}  // namespace hw::shop
