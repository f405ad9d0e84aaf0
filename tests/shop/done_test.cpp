// What marking done does to a task, and how it is taken back.

#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

using testing::Test;

TEST(MarkDone, UsedBeginsAnewAtTheCountersOfThatMoment) {
  Scene scene;
  scene.play("mill1 |######..##|");
  EXPECT_NEAR(*scene.trigger("filter").used, 8, 1e-9);
  EXPECT_EQ(scene.task("filter").state, "due");
  const auto entry = must(scene.done("filter", 1));
  EXPECT_NEAR(entry.counters.at("operating"), 8, 1e-9);
  EXPECT_EQ(*scene.trigger("filter").used, 0);
  EXPECT_EQ(*scene.trigger("filter").left, 8);
  EXPECT_EQ(scene.task("filter").state, "in hand");
  scene.play("mill1 |#..##|");
  EXPECT_NEAR(*scene.trigger("filter").used, 3, 1e-9);
  EXPECT_NEAR(*scene.trigger("filter").left, 5, 1e-9);
  EXPECT_NEAR(*scene.trigger("filter").counter_then, 8, 1e-9);
}

TEST(MarkDone, TheStateGoesFromInHandToOverdueAsHoursAreUsed) {
  Scene scene;
  for (const char* state :
       {"in hand", "in hand", "in hand", "in hand", "in hand", "coming", "coming", "due", "due", "overdue"}) {
    scene.play("mill1 |#|");
    EXPECT_EQ(scene.task("filter").state, state) << print(scene.now);
  }
}

TEST(MarkDone, ARestartChangesNoNumberOfIt) {
  Scene scene;
  scene.play("mill1 |####|");
  must(scene.done("filter", 1));
  scene.play("mill1 |##S|");
  const auto before = scene.task("filter");
  scene.reopen();
  const auto after = scene.task("filter");
  EXPECT_EQ(*after.triggers.at(0).used, *before.triggers.at(0).used);
  EXPECT_EQ(after.last_done->id, before.last_done->id);
  EXPECT_EQ(after.last_done->at, before.last_done->at);
}

TEST(MarkDone, TheOtherMachinesTaskOfThatNameGoesOn) {
  Scene scene;
  scene.play("mill2 |###|");
  must(scene.done("filter", 1));
  EXPECT_NEAR(*scene.task("filter", "mill2").triggers.at(0).used, 3, 1e-9);
  EXPECT_FALSE(scene.task("filter", "mill2").last_done);
}

TEST(MarkDone, TheSameIdFiveTimesIsOneEntryWithOneAnswer) {
  Scene scene;
  scene.now = scene.now + Duration{123'456'789};
  scene.play("mill1 |##|");
  const auto first = must(scene.done("filter", 1));
  for (int i = 0; i < 4; ++i) {
    scene.play("mill1 |#|");
    const auto again = must(scene.done("filter", 1));
    EXPECT_EQ(again.at, first.at);
    EXPECT_EQ(again.counters, first.counters);
    EXPECT_EQ(again.says, first.says);
  }
  EXPECT_EQ(scene.machine().entries.size(), 1u);
  EXPECT_NEAR(*scene.trigger("filter").used, 4, 1e-9);
}

TEST(MarkDone, TheSameIdForAnotherTaskMachineOrKindIsAConflict) {
  Scene scene;
  must(scene.done("filter", 1));
  EXPECT_EQ(scene.done("grease", 1).error().code, ErrorCode::conflict);
  EXPECT_EQ(mark_done(scene.shop(), "mill2", "filter", {{id_of(1), "Ada", {}, {}}, {}}, scene.now).error().code,
            ErrorCode::conflict);
  EXPECT_EQ(retire_task(scene.shop(), "mill1", "filter", {id_of(1), "Ada", {}, {}}, scene.now).error().code,
            ErrorCode::conflict);
  EXPECT_EQ(scene.undo(1, 1).error().code, ErrorCode::conflict);
  EXPECT_FALSE(scene.task("grease").last_done);
  EXPECT_EQ(scene.machine().entries.size(), 1u);
}

TEST(MarkDone, WhatCannotBeIsRefusedAndLeavesNoEntry) {
  Scene scene;
  const std::string too_long(61, 'x');
  EXPECT_EQ(scene.done(too_long, 1).error().code, ErrorCode::bad_input);
  EXPECT_EQ(mark_done(scene.shop(), too_long, "filter", {{id_of(1), "Ada", {}, {}}, {}}, scene.now).error().code,
            ErrorCode::bad_input);
  EXPECT_EQ(mark_done(scene.shop(), "mill1", "filter", {{"1", "Ada", {}, {}}, {}}, scene.now).error().code,
            ErrorCode::bad_input);
  EXPECT_EQ(scene.done("filter", 1, "").error().code, ErrorCode::bad_input);
  const std::string note(2001, 'x');
  EXPECT_EQ(mark_done(scene.shop(), "mill1", "filter", {{id_of(1), "Ada", {}, {}}, note}, scene.now).error().code,
            ErrorCode::bad_input);
  EXPECT_TRUE(scene.machine().entries.empty());
}

TEST(MarkDone, ANotesLengthIsCountedInCharacters) {
  Scene scene;
  std::string note;
  for (int i = 0; i < 2000; ++i) note += "ö";
  EXPECT_TRUE(mark_done(scene.shop(), "mill1", "filter", {{id_of(1), "Ada", {}, {}}, note}, scene.now));
}

TEST(Undo, WithinTenSecondsTheTaskCountsOnAsBefore) {
  Scene scene;
  scene.play("mill1 |###|");
  must(scene.done("filter", 1));
  scene.play("mill1 |##|");
  must(scene.done("filter", 2));
  scene.now = scene.now + Duration::seconds(10);
  const auto taken_back = must(scene.undo(2, 3));
  EXPECT_EQ(taken_back.kind, "undone");
  EXPECT_NEAR(*scene.trigger("filter").used, 2, 0.01);
  EXPECT_EQ(scene.task("filter").last_done->id, id_of(1));
  const auto entries = scene.machine().entries;
  ASSERT_EQ(entries.size(), 3u);
  EXPECT_EQ(entries.at(1).undone, true);
  scene.reopen();
  EXPECT_EQ(scene.task("filter").last_done->id, id_of(1));
}

TEST(Undo, AfterTenSecondsItIsRefused) {
  Scene scene;
  scene.play("mill1 |###|");
  must(scene.done("filter", 1));
  scene.now = scene.now + Duration::millis(10'001);
  EXPECT_EQ(scene.undo(1, 2).error().code, ErrorCode::conflict);
  EXPECT_EQ(*scene.task("filter").triggers.at(0).counter_then, 3);
  EXPECT_EQ(scene.machine().entries.size(), 1u);
}

TEST(Undo, TheSameIdAgainIsTheSameAnswerAndAnotherIdComesTooLate) {
  Scene scene;
  must(scene.done("filter", 1));
  const auto first = must(scene.undo(1, 2));
  EXPECT_EQ(must(scene.undo(1, 2)).at, first.at);
  EXPECT_EQ(scene.undo(1, 3).error().message, "it was taken back already");
  must(scene.done("filter", 4));
  EXPECT_EQ(scene.undo(4, 2).error().code, ErrorCode::conflict);
  EXPECT_TRUE(scene.task("filter").last_done);
}

TEST(Undo, OnlyOnesOwnTaskDoneCanBeTakenBack) {
  Scene scene;
  must(scene.done("filter", 1, "Ada"));
  EXPECT_EQ(scene.undo(1, 2, "Bo").error().code, ErrorCode::conflict);
  EXPECT_EQ(scene.undo(77, 2).error().code, ErrorCode::not_found);
  must(retire_task(scene.shop(), "mill1", "filter", {id_of(3), "Ada", {}, {}}, scene.now));
  EXPECT_EQ(scene.undo(3, 4).error().code, ErrorCode::conflict);
}

TEST(MarkDone, WhatComesForARetiredTaskIsKeptAsStrayAndResetsNothing) {
  Scene scene;
  must(retire_task(scene.shop(), "mill1", "filter", {id_of(1), "Ada", {}, {}}, scene.now));
  const auto entry = must(scene.done("filter", 2));
  EXPECT_EQ(entry.stray, "\"Replace the filter\" was retired on 2026-03-02");
  EXPECT_FALSE(scene.task("filter").last_done);
  EXPECT_EQ(scene.machine().entries.at(0).stray, entry.stray);
  EXPECT_EQ(scene.machine().retired.size(), 1u);
  EXPECT_EQ(scene.machine().tasks.size(), 2u);
}

TEST(MarkDone, WhatComesForATaskOrMachineThatIsNotThereIsKeptAsStray) {
  Scene scene;
  EXPECT_EQ(must(scene.done("no-such", 1)).stray, "mill1 has no task \"no-such\"");
  const service::DoneEdit edit{{id_of(2), "Ada", {}, {}}, {}};
  for (int i = 0; i < 2; ++i) {
    const auto entry = must(mark_done(scene.shop(), "mill9", "filter", edit, scene.now));
    EXPECT_EQ(entry.stray, "there is no machine \"mill9\"");
    EXPECT_EQ(entry.machine, "mill9");
    EXPECT_TRUE(entry.counters.empty());
  }
  EXPECT_EQ(must(scene.store().entries_of("mill9", 9)).size(), 1u);
}

TEST(MarkDone, TheLastDoneIsTheLatestThatHappenedNotTheLastToArrive) {
  Scene scene;
  const Instant early = scene.now + Duration::hours(1);
  scene.play("mill1 |######|");
  must(scene.done("filter", 1));
  must(mark_done(scene.shop(), "mill1", "filter", {{id_of(2), "Ada", early, scene.now}, {}}, scene.now));
  EXPECT_EQ(scene.task("filter").last_done->id, id_of(1));
  EXPECT_EQ(*scene.trigger("filter").used, 0);
  scene.reopen();
  EXPECT_EQ(scene.task("filter").last_done->id, id_of(1));
}

}  // namespace
}  // namespace hw::shop
