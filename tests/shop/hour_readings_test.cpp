// The control's hour display as a person reads it, beside the counted hours.

#include "tests/shop/scene.h"

namespace hw::shop {
namespace {

// A first reading of 1,000 h at 4 counted hours, and 4 h more counted since.
struct ReadOnce : testing::Test {
  ReadOnce() {
    scene.play("mill1 |####|");
    must(scene.read_hours(1000, 1));
    scene.play("mill1 |####|");
  }
  Scene scene;
};

TEST_F(ReadOnce, TheFirstReadingNotesTheOffsetAndMovesNothing) {
  const auto readings = scene.machine().hour_readings;
  ASSERT_EQ(readings.size(), 1u);
  EXPECT_EQ(readings.at(0).state, "fits");
  EXPECT_NEAR(readings.at(0).offset_h, 996, 1e-9);
  EXPECT_NEAR(scene.total("operating"), 8, 1e-9);
}

TEST_F(ReadOnce, ARiseLikeTheCountersFits) {
  EXPECT_EQ(must(scene.read_hours(1004.2, 2)).state, "fits");
  EXPECT_NEAR(scene.total("operating"), 8, 1e-9);
}

TEST_F(ReadOnce, AFallIsKeptButCountsForNothingUntilItIsSettled) {
  EXPECT_EQ(must(scene.read_hours(3, 2)).state, "to be settled");
  EXPECT_NEAR(scene.total("operating"), 8, 1e-9);
  // The next reading is still judged by the first.
  EXPECT_EQ(must(scene.read_hours(1004, 3)).state, "fits");
}

TEST_F(ReadOnce, AReplacedDisplayBeginsAnewAndMovesNoTotal) {
  must(scene.read_hours(3, 2));
  EXPECT_EQ(must(scene.settle(2, "display replaced or reset", 3)).state, "settled");
  EXPECT_NEAR(scene.total("operating"), 8, 1e-9);
  scene.play("mill1 |##|");
  EXPECT_EQ(must(scene.read_hours(5, 4)).state, "fits");
}

TEST_F(ReadOnce, AMisreadOneIsAsIfItHadNotBeen) {
  must(scene.read_hours(10'040, 2));
  must(scene.settle(2, "misread", 3));
  EXPECT_NEAR(scene.total("operating"), 8, 1e-9);
  EXPECT_EQ(must(scene.read_hours(1004, 4)).state, "fits");
}

TEST_F(ReadOnce, WhereTheDisplayIsRightTheTotalAndTheTasksMove) {
  const auto jump = must(scene.read_hours(1010, 2));  // 10 h in 4 h: cannot be
  EXPECT_EQ(jump.state, "to be settled");
  EXPECT_NEAR(jump.difference_h, 6, 1e-9);
  must(scene.settle(2, "display is right", 3));
  EXPECT_NEAR(scene.total("operating"), 14, 1e-9);
  EXPECT_NEAR(*scene.trigger("filter").used, 14, 1e-9);
  EXPECT_EQ(scene.counter("operating").counted, 8);
  EXPECT_EQ(scene.counter("operating").adjusted, 6);
  scene.reopen();
  EXPECT_NEAR(scene.total("operating"), 14, 1e-9);
  scene.play("mill1 |#|");
  EXPECT_EQ(must(scene.read_hours(1011, 4)).state, "fits");  // judged by the settled one
}

TEST_F(ReadOnce, TheFirstDisplayMayGiveTheCounterItsStartAndNoTaskMoves) {
  const double used = *scene.trigger("filter").used;
  must(scene.settle(1, "display is right", 2));
  EXPECT_NEAR(scene.total("operating"), 996 + 8, 1e-9);
  EXPECT_NEAR(*scene.trigger("filter").used, used, 1e-9);
  EXPECT_NEAR(*scene.trigger("filter").counter_now - *scene.trigger("filter").counter_then, used, 1e-9);
  scene.reopen();
  EXPECT_NEAR(scene.total("operating"), 996 + 8, 1e-9);
  EXPECT_NEAR(*scene.trigger("filter").used, used, 1e-9);
}

TEST_F(ReadOnce, WhereTheCountedHoursAreRightNothingMovesAndTheReadingIsTheNewBase) {
  must(scene.read_hours(1010, 2));
  must(scene.settle(2, "counted hours are right", 3));
  EXPECT_NEAR(scene.total("operating"), 8, 1e-9);
  scene.play("mill1 |#|");
  EXPECT_EQ(must(scene.read_hours(1011, 4)).state, "fits");
}

TEST_F(ReadOnce, TheSameJumpSeenInTwoReadingsIsAddedOnce) {
  must(scene.read_hours(1010, 2));
  scene.play("mill1 |#|");
  must(scene.read_hours(1011, 3));
  EXPECT_EQ(scene.settle(2, "display is right", 4).error().code, ErrorCode::conflict);
  must(scene.settle(3, "display is right", 5));
  EXPECT_NEAR(scene.total("operating"), 15, 1e-9);
  EXPECT_EQ(scene.settle(2, "display is right", 6).error().code, ErrorCode::conflict);
  must(scene.settle(2, "counted hours are right", 7));
  EXPECT_NEAR(scene.total("operating"), 15, 1e-9);
}

TEST_F(ReadOnce, ASettlementIsMadeOnce) {
  must(scene.read_hours(1010, 2));
  must(scene.settle(2, "display is right", 3));
  must(scene.settle(2, "display is right", 3));
  EXPECT_EQ(scene.settle(2, "misread", 4).error().code, ErrorCode::conflict);
  EXPECT_EQ(scene.settle(2, "misread", 3).error().code, ErrorCode::conflict);
  EXPECT_NEAR(scene.total("operating"), 14, 1e-9);
  EXPECT_EQ(scene.machine().entries.size(), 3u);
}

TEST_F(ReadOnce, TheSameReadingSentAgainIsOne) {
  must(scene.read_hours(1004, 2));
  must(scene.read_hours(1004, 2));
  EXPECT_EQ(scene.machine().hour_readings.size(), 2u);
}

TEST_F(ReadOnce, WhatCannotBeIsRefused) {
  EXPECT_EQ(scene.read_hours(-1, 2).error().code, ErrorCode::bad_input);
  EXPECT_EQ(scene.read_hours(1e7, 2).error().code, ErrorCode::bad_input);
  EXPECT_EQ(scene.read_hours(5, 2, "revolutions Srpm").error().code, ErrorCode::bad_input);
  EXPECT_EQ(scene.read_hours(5, 2, "hours").error().code, ErrorCode::bad_input);
  EXPECT_EQ(scene.settle(1, "who knows", 2).error().code, ErrorCode::bad_input);
  EXPECT_EQ(scene.settle(9, "misread", 2).error().code, ErrorCode::not_found);
  EXPECT_EQ(scene.settle(1, "misread", 2).error().code, ErrorCode::conflict);  // it fits
  EXPECT_EQ(scene.machine().hour_readings.size(), 1u);
}

TEST_F(ReadOnce, AStartThatIsMovedUsesNothingOfATaskThatWasNeverDone) {
  must(scene.settle(1, "display is right", 2));
  EXPECT_NEAR(*scene.trigger("filter").used, 8, 1e-9);
  scene.reopen();
  EXPECT_NEAR(*scene.trigger("filter").used, 8, 1e-9);
}

TEST_F(ReadOnce, ADisplayOfLongBeforeTheCountingCanBecomeTheTotal) {
  must(scene.done("filter", 9));
  scene.play("mill1 |##|");
  must(scene.settle(1, "display is right", 2));
  EXPECT_NEAR(scene.total("operating"), 1006, 1e-9);
  EXPECT_NEAR(*scene.trigger("filter").used, 2, 1e-9);  // nothing was used by that
  scene.reopen();
  EXPECT_NEAR(*scene.trigger("filter").used, 2, 1e-9);
  scene.play("mill1 |#|");
  EXPECT_EQ(must(scene.read_hours(1007, 3)).state, "fits");
}

}  // namespace
}  // namespace hw::shop
