// Stops, from their being agreed to their being changed or withdrawn.

#include <gmock/gmock.h>

#include "tests/shop/stopping.h"

namespace hw::shop {
namespace {

using service::StopsShown;
using testing::HasSubstr;

const LocalDate that_wednesday = LocalDate::of(2026, 3, 4);
const LocalDate that_saturday = LocalDate::of(2026, 3, 7);

std::string code_of(const Result<service::StopView>& refused) {
  return !refused && refused.error().saying ? refused.error().saying->code : "";
}

TEST(Stops, AreAgreedWithTheirShiftTheirStrictestStateAndTheirMinutes) {
  Scene scene;
  const Stopping stops{scene};
  auto edit = stops.edit(1, {"filter", "grease", "look"}, that_wednesday);
  edit.note = "before the audit";
  const auto stop = must(agree_stop(scene.shop(), "mill1", edit, scene.now));
  EXPECT_EQ(stop.id, id_of(1));
  EXPECT_EQ(stop.state, "agreed");
  EXPECT_EQ(print(stop.begins_at), "2026-03-04T05:00:00Z") << "06:00 in Berlin";
  EXPECT_EQ(print(stop.ends_at), "2026-03-04T13:00:00Z");
  EXPECT_EQ(stop.energy, "isolated");
  EXPECT_EQ(stop.minutes, 45 + 20 + 5.5) << "what is done in production does not stop the machine";
  EXPECT_EQ(stop.note, "before the audit");
  EXPECT_EQ(stop.by, "Ada");
  EXPECT_EQ(stop.version, 1);
  ASSERT_EQ(stop.tasks.size(), 3u);
  EXPECT_EQ(stop.tasks[1].title, "Grease the spindle nose");
  EXPECT_EQ(stop.tasks[1].point, 1);
  EXPECT_EQ(stop.tasks[1].state, "planned");
  const auto entry = stops.entries("stop agreed").at(0);
  EXPECT_EQ(entry.stop, id_of(1));
  EXPECT_EQ(entry.note, "before the audit");
  const auto other = agree_stop(scene.shop(), "mill2", stops.edit(2, {"look"}, that_saturday), scene.now);
  EXPECT_EQ(must(other).energy, "powered at rest") << "for what is done in production nobody isolates";
}

TEST(Stops, MayBeOnADayOnWhichTheShiftDoesNotWork) {
  Scene scene;
  const auto stop = must(Stopping{scene}.agree(1, {"filter"}, that_saturday));
  EXPECT_EQ(print(stop.begins_at), "2026-03-07T05:00:00Z");
}

TEST(Stops, OfAPlantInAnotherZoneBeginByItsClock) {
  Scene scene("2026-03-02T06:00:00Z", "America/Chicago");
  EXPECT_EQ(print(must(Stopping{scene}.agree(1, {"filter"}, that_saturday)).begins_at), "2026-03-07T12:00:00Z");
}

TEST(Stops, AreOnTheFloorAndSurviveARestart) {
  Scene scene;
  const Stopping stops{scene};
  must(stops.agree(1, {"grease"}, that_saturday));
  must(stops.agree(2, {"filter"}));
  const auto next = [&] { return must(show_floor_machine(scene.shop(), "mill1", scene.now)).next_stop; };
  ASSERT_TRUE(next());
  EXPECT_EQ(next()->id, id_of(2));
  EXPECT_EQ(next()->on, that_wednesday);
  EXPECT_EQ(next()->shift, "early");
  EXPECT_EQ(next()->energy, "powered at rest");
  EXPECT_FALSE(must(show_floor_machine(scene.shop(), "mill2", scene.now)).next_stop);
  scene.end_and_reopen();
  EXPECT_EQ(next()->id, id_of(2));
  scene.now = scene.now + Duration::hours(3 * 24);
  EXPECT_EQ(next()->id, id_of(1)) << "what is over is not the next";
}

TEST(Stops, WhoeverShowsTheMachineIsToldOfEachChange) {
  Scene scene;
  const Stopping stops{scene};
  const auto version = [&] { return scene.shop().machines()[0]->tasks_version; };
  auto before = version();
  must(stops.agree(1, {"filter"}));
  EXPECT_GT(version(), before);
  before = version();
  must(stops.withdraw(1, 2));
  EXPECT_GT(version(), before);
}

TEST(Stops, TheSameIdFiveTimesIsOneStop) {
  Scene scene;
  const Stopping stops{scene};
  service::StopChange move;
  move.on = that_saturday;
  for (int i = 0; i < 5; ++i) must(stops.agree(1, {"filter"}));
  for (int i = 0; i < 5; ++i) must(stops.change(1, 1, move, 2));
  for (int i = 0; i < 5; ++i) EXPECT_EQ(must(stops.agree(1, {"filter"})).on, that_saturday) << "as it stands now";
  for (int i = 0; i < 5; ++i) must(stops.withdraw(1, 3));
  EXPECT_EQ(scene.machine().entries.size(), 3u);
}

TEST(Stops, AreChangedAndWhatIsLeftOutStays) {
  Scene scene;
  const Stopping stops{scene};
  must(stops.agree(1, {"filter"}));
  service::StopChange move;
  move.on = that_saturday;
  const auto moved = must(stops.change(1, 1, move, 2));
  EXPECT_EQ(moved.on, that_saturday);
  EXPECT_EQ(moved.shift, "early");
  EXPECT_EQ(moved.tasks.size(), 1u);
  EXPECT_EQ(moved.version, 2);
  EXPECT_EQ(moved.by, "Ada") << "who agreed it";
  service::StopChange more;
  more.tasks = std::vector<std::string>{"filter", "grease"};
  more.note = "bring the hoist";
  const auto changed = must(stops.change(1, 2, more, 3));
  EXPECT_EQ(changed.on, that_saturday);
  EXPECT_EQ(changed.energy, "isolated");
  EXPECT_EQ(changed.note, "bring the hoist");
  EXPECT_EQ(stops.entries("stop changed").at(1).says,
            "stop of 2026-03-04, early: changed: now the stop of 2026-03-07, early");
}

TEST(Stops, OfTwoWhoChangeAtOnceTheSecondLooksAgain) {
  Scene scene;
  const Stopping stops{scene};
  must(stops.agree(1, {"filter"}));
  service::StopChange move;
  move.on = that_saturday;
  must(stops.change(1, 1, move, 2));
  service::StopChange other;
  other.tasks = std::vector<std::string>{"grease"};
  const auto refused = stops.change(1, 1, other, 3);
  EXPECT_EQ(refused.error().code, ErrorCode::conflict);
  EXPECT_EQ(code_of(refused), "stop-changed");
  EXPECT_EQ(code_of(stops.close(1, 1, {"filter"}, 4)), "stop-changed");
  EXPECT_EQ(stops.shown(1).tasks.at(0).task, "filter");
  must(stops.change(1, 2, other, 5));
  EXPECT_EQ(stops.shown(1).on, that_saturday) << "neither change is lost";
}

TEST(Stops, ATaskIsInOneAgreedStopOnly) {
  Scene scene;
  const Stopping stops{scene};
  must(stops.agree(1, {"filter", "grease"}));
  const auto refused = stops.agree(2, {"grease"}, that_saturday);
  EXPECT_EQ(refused.error().code, ErrorCode::conflict);
  EXPECT_EQ(code_of(refused), "task-in-stop");
  EXPECT_EQ(refused.error().saying->texts.at("stop"), id_of(1));
  EXPECT_EQ(refused.error().saying->texts.at("date"), "2026-03-04");
  EXPECT_TRUE(agree_stop(scene.shop(), "mill2", stops.edit(3, {"grease"}, that_saturday), scene.now))
      << "the other machine has a task of its own";
  must(stops.agree(4, {"look"}, that_saturday));
  service::StopChange more;
  more.tasks = std::vector<std::string>{"look", "filter"};
  EXPECT_EQ(code_of(stops.change(4, 1, more, 5)), "task-in-stop");
  more.tasks = std::vector<std::string>{"grease"};
  must(stops.change(1, 1, more, 6));
  more.tasks = std::vector<std::string>{"look", "filter"};
  EXPECT_TRUE(stops.change(4, 1, more, 7)) << "left out of the other stop it is free";
}

TEST(Stops, WithdrawnOnesFreeTheirTasksAndTakeNoChange) {
  Scene scene;
  const Stopping stops{scene};
  must(stops.agree(1, {"filter"}));
  const auto withdrawn = must(stops.withdraw(1, 2));
  EXPECT_EQ(withdrawn.state, "withdrawn");
  EXPECT_EQ(withdrawn.withdrawn->why, "a hot order");
  EXPECT_EQ(withdrawn.tasks.at(0).state, "planned");
  EXPECT_TRUE(stops.agreed().empty());
  service::StopChange move;
  move.on = that_saturday;
  EXPECT_EQ(code_of(stops.change(1, 2, move, 3)), "stop-closed");
  EXPECT_EQ(code_of(stops.withdraw(1, 4)), "stop-closed");
  EXPECT_EQ(code_of(stops.close(1, 2, {}, 5)), "stop-closed");
  must(stops.agree(6, {"filter"}, that_saturday));
}

// The change had been sent from a computer whose clock goes behind; nobody can have changed what was not there yet.
TEST(Stops, AChangeCountsAfterWhatItsMakerSaw) {
  Scene scene;
  const Stopping stops{scene};
  must(stops.agree(1, {"filter"}));
  scene.now = scene.now + Duration::hours(1);
  service::StopChange move;
  move.on = that_saturday;
  must(stops.change(1, 1, move, 2));
  service::StopChange back;
  back.on = that_wednesday;
  back.at = scene.now - Duration::seconds(1800);
  EXPECT_EQ(must(stops.change(1, 2, back, 3)).on, that_wednesday);
}

TEST(Stops, WithdrawnEarlierThanChangedButToldLaterAreWithdrawnAsTheyWereThen) {
  Scene scene;
  const Stopping stops{scene};
  must(stops.agree(1, {"filter"}));
  service::StopWithdraw late;
  late.id = id_of(3);
  late.by = "Ada";
  late.why = "a hot order";
  late.at = scene.now + Duration::seconds(600);
  scene.now = scene.now + Duration::hours(1);
  service::StopChange move;
  move.on = that_saturday;
  must(stops.change(1, 1, move, 2));
  late.sent_at = scene.now;
  const auto stop = must(withdraw_stop(scene.shop(), id_of(1), late, scene.now));
  EXPECT_EQ(stop.state, "withdrawn");
  EXPECT_EQ(stop.on, that_wednesday);
}

TEST(Stops, WhatCannotBeIsRefusedAndLeavesNoEntry) {
  Scene scene;
  const Stopping stops{scene};
  must(retire_task(scene.shop(), "mill1", "look", {id_of(90), "Ada", {}, {}}, scene.now));
  const auto entries = scene.machine().entries.size();
  const auto expect_refused = [&](const Result<service::StopView>& refused, std::string_view says) {
    ASSERT_FALSE(refused) << says;
    EXPECT_EQ(refused.error().code, ErrorCode::bad_input) << refused.error().message;
    EXPECT_THAT(refused.error().message, HasSubstr(std::string{says}));
  };
  expect_refused(stops.agree(1, {"filter"}, LocalDate::of(2026, 3, 1)), "on: 2026-03-01 is over");
  expect_refused(stops.agree(1, {}), "tasks: ");
  expect_refused(stops.agree(1, {"filter", "filter"}), "tasks: \"filter\" is named twice");
  expect_refused(stops.agree(1, {"no-such"}), "tasks: mill1 has no task \"no-such\"");
  expect_refused(stops.agree(1, {"look"}), "tasks: \"Look over the machine\" was retired");
  auto edit = stops.edit(1, {"filter"}, that_wednesday);
  edit.shift = "night";
  expect_refused(agree_stop(scene.shop(), "mill1", edit, scene.now), "shift: the plant has no shift \"night\"");
  edit.shift = "";
  expect_refused(agree_stop(scene.shop(), "mill1", edit, scene.now), "shift: ");
  EXPECT_EQ(agree_stop(scene.shop(), "mill9", edit, scene.now).error().code, ErrorCode::not_found);
  EXPECT_EQ(stops.withdraw(77, 2).error().code, ErrorCode::not_found);
  EXPECT_EQ(show_stop(scene.shop(), id_of(77), scene.now).error().code, ErrorCode::not_found);
  EXPECT_EQ(show_stops(scene.shop(), {"mill9"}).error().code, ErrorCode::not_found);
  EXPECT_EQ(scene.machine().entries.size(), entries);
  EXPECT_TRUE(must(stops.agree(1, {"filter"}, LocalDate::of(2026, 3, 2))).on == LocalDate::of(2026, 3, 2)) << "today";
}

TEST(Stops, AnIdThatWasUsedForSomethingElseIsAConflict) {
  Scene scene;
  const Stopping stops{scene};
  must(stops.agree(1, {"filter"}));
  must(stops.agree(2, {"grease"}));
  must(scene.done("look", 3));
  EXPECT_EQ(code_of(stops.agree(3, {"look"})), "id-used");
  service::StopChange move;
  move.on = that_saturday;
  must(stops.change(1, 1, move, 4));
  EXPECT_EQ(code_of(stops.change(2, 1, move, 4)), "id-used");
  EXPECT_EQ(code_of(agree_stop(scene.shop(), "mill2", stops.edit(1, {"filter"}, that_saturday), scene.now)), "id-used");
}

TEST(Stops, TheTasksOfAnAgreedOneAreAsTheyAreNow) {
  Scene scene;
  const Stopping stops{scene};
  must(stops.agree(1, {"filter"}));
  service::TaskEdit edit;
  static_cast<service::TaskText&>(edit) = service::text_of(scene.shop().machines()[0]->record.tasks.at(0).task);
  edit.id = id_of(2);
  edit.by = "Ada";
  edit.version = 1;
  edit.title = "Replace both filters";
  edit.minutes = 30;
  must(change_task(scene.shop(), "mill1", "filter", edit, scene.now));
  EXPECT_EQ(stops.shown(1).tasks.at(0).title, "Replace both filters");
  EXPECT_EQ(stops.shown(1).minutes, 15 + 30);
  must(retire_task(scene.shop(), "mill1", "filter", {id_of(3), "Ada", {}, {}}, scene.now));
  service::StopChange move;
  move.on = that_saturday;
  EXPECT_EQ(must(stops.change(1, 1, move, 4)).tasks.size(), 1u) << "a retired task stays until others are named";
}

TEST(Stops, AreListedByWhenTheyBeginAndThoseThatAreOverApart) {
  Scene scene;
  const Stopping stops{scene};
  must(stops.agree(1, {"filter"}, that_saturday));
  must(stops.agree(2, {"grease"}));
  must(agree_stop(scene.shop(), "mill2", stops.edit(3, {"grease"}, LocalDate::of(2026, 3, 5)), scene.now));
  must(stops.agree(4, {"look"}));
  must(stops.close(4, 1, {"look"}, 40));
  must(agree_stop(scene.shop(), "mill2", stops.edit(5, {"look"}, that_saturday), scene.now));
  must(stops.withdraw(5, 50));
  const auto ids = [&](const service::StopsQuery& query) {
    std::string all;
    for (const auto& one : must(show_stops(scene.shop(), query)).stops) all += one.id.back();
    return all;
  };
  EXPECT_EQ(ids({}), "231");
  EXPECT_EQ(ids({"mill1"}), "21");
  EXPECT_EQ(ids({{}, StopsShown::closed}), "4");
  EXPECT_EQ(ids({{}, StopsShown::withdrawn}), "5");
  EXPECT_EQ(ids({{}, StopsShown::all}).size(), 5u);
}

}  // namespace
}  // namespace hw::shop
