// Rounds as people walk them: in pieces, together, late, twice, and with things that cannot be.

#include <gmock/gmock.h>

#include "libs/formats/json.h"
#include "tests/shop/walking.h"

namespace hw::shop {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr std::string_view monday_six = "2026-03-02T05:00:00Z";  // the early shift begins, 06:00 in Berlin

class Rounds : public testing::Test {
 protected:
  void pass(double hours) { scene.now = scene.now + Duration::seconds(static_cast<std::int64_t>(hours * 3600)); }
  Walker walker(std::string by = "Ada") { return {.scene = scene, .by = std::move(by)}; }
  std::string state_now() const {
    const auto round = round_of(scene);
    return round.now ? round.now->state : "none runs";
  }
  std::string shown() const { return formats::print_json(must(show_rounds(scene.shop(), std::nullopt, scene.now))); }

  Scene scene{monday_six, "Europe/Berlin", round_tasks};
};

TEST_F(Rounds, HaveTheirChecksWithAllThatWalkingThemNeeds) {
  std::vector<std::string> keys;
  const auto round = round_of(scene);
  for (const auto& check : round.checks) keys.push_back(check.key);
  EXPECT_THAT(keys, ElementsAre("look", "window", "coolant", "air/supply air"));
  const auto air = round_of(scene).checks.at(3);
  EXPECT_EQ(air.kind, "reading");
  EXPECT_EQ(air.point, 1);
  EXPECT_EQ(air.reading->unit, "bar");
  EXPECT_EQ(air.reading->warning->min, 5.5);
  EXPECT_EQ(round_of(scene).checks.at(2).quantity_unit, "l");
  EXPECT_EQ(round_of(scene, "before start-up").checks.size(), 1u);
  EXPECT_EQ(round_of(scene, "week").checks.at(0).key, "week/pH");
}

TEST_F(Rounds, OneTapForACheckAndOneForTheRestWalkTheRound) {
  EXPECT_EQ(state_now(), "open");
  EXPECT_EQ(must(walker().begin(1)).says, "round begun (shift), 4 checks");
  EXPECT_EQ(must(walker().answer(2, 1, bad("look"))).says, "Look over the machine: not so");
  EXPECT_EQ(state_now(), "open");
  const auto others = must(
      walker().others(3, 1, {good("window", "clean"), good("coolant", "top up"), good("air/supply air", "reading")}));
  EXPECT_EQ(others.kind, "others as they should be");
  EXPECT_EQ(others.answers->size(), 3u);
  EXPECT_EQ(others.says, "all others as they should be: Clean the window; Top up the coolant; Read the supply air");
  EXPECT_EQ(state_now(), "walked");
  EXPECT_THAT(answers_now(scene), ElementsAre("air/supply air as it should be", "coolant as it should be",
                                              "look not so", "window as it should be"));
  for (const char* task : {"look", "window", "coolant", "air"}) EXPECT_EQ(scene.task(task).state, "in hand") << task;
  EXPECT_EQ(scene.task("window").last_done->answers->size(), 1u);
}

TEST_F(Rounds, TheFloorSaysWhereEachRoundStands) {
  const auto standing = [&] {
    std::string text;
    const auto floor = show_floor(scene.shop(), scene.now);
    for (const auto& one : floor.machines.at(0).rounds) {
      text += one.rhythm + " " + one.state + ";";
    }
    return text;
  };
  EXPECT_EQ(standing(), "before start-up open;shift open;week open;");
  must(walker().begin(1, {"look"}));
  must(walker().answer(2, 1, good("look")));
  EXPECT_EQ(standing(), "before start-up open;shift walked;week open;");
  pass(8);
  EXPECT_EQ(standing(), "before start-up open;week open;");
}

TEST_F(Rounds, AHalfWalkedRoundIsKeptAndShownAsSuch) {
  must(walker().begin(1));
  must(walker().answer(2, 1, good("look")));
  pass(9);
  EXPECT_EQ(state_now(), "none runs");
  EXPECT_THAT(past(scene), ElementsAre("2026-03-02 early half walked"));
  const auto turn = round_of(scene).past.at(0);
  EXPECT_EQ(turn.walks.at(0).answered, 1);
  EXPECT_EQ(turn.walks.at(0).of, 4);
  EXPECT_THAT(turn.answers, IsEmpty());
}

TEST_F(Rounds, WhatNobodyWalkedIsMissedButNotBeforeTheShopWasNorOnClosedDays) {
  scene.now = *parse_instant("2026-03-09T04:30:00Z");  // the next Monday, half an hour before the shift
  EXPECT_THAT(past(scene), ElementsAre("2026-03-06 early missed", "2026-03-05 early missed", "2026-03-04 early missed",
                                       "2026-03-03 early missed", "2026-03-02 early missed"));
  EXPECT_THAT(past(scene, "week"), ElementsAre("2026-03-02 missed"));
  EXPECT_THAT(past(scene, "before start-up"), IsEmpty());
  EXPECT_EQ(state_now(), "ahead");
  EXPECT_THAT(scene.machine().entries, IsEmpty());
}

TEST_F(Rounds, OneWhoComesEarlyWalksTheTurnAhead) {
  scene.now = *parse_instant("2026-03-03T04:10:00Z");
  must(walker().begin(1));
  must(walker().answer(2, 1, good("look")));
  EXPECT_EQ(state_now(), "ahead");
  EXPECT_THAT(answers_now(scene), ElementsAre("look as it should be"));
  pass(1);
  EXPECT_EQ(state_now(), "open");
  EXPECT_THAT(answers_now(scene), ElementsAre("look as it should be"));
}

TEST_F(Rounds, TwoPeopleOnOneRoundAreBothRecordedAndNoCheckIsLost) {
  must(walker("Ada").begin(1));
  must(walker("Bo").begin(2));
  must(walker("Ada").answer(3, 1, good("look")));
  must(walker("Bo").answer(4, 2, bad("window", "clean")));
  pass(0.1);
  must(walker("Bo").answer(5, 2, read("air/supply air", 5.2)));
  must(walker("Ada").answer(6, 1, good("window", "clean")));
  EXPECT_EQ(state_now(), "open");
  must(walker("Ada").answer(7, 1, good("coolant", "top up")));
  EXPECT_EQ(state_now(), "walked");
  EXPECT_THAT(answers_now(scene), ElementsAre("air/supply air 5.2 bar", "coolant as it should be",
                                              "look as it should be", "window as it should be"));
  const auto walks = round_of(scene).now->walks;
  ASSERT_EQ(walks.size(), 2u);
  EXPECT_EQ(walks.at(0).answered + walks.at(1).answered, 5);
  EXPECT_EQ(scene.machine().entries.size(), 7u);
}

TEST_F(Rounds, ARestartInBetweenChangesNothing) {
  must(walker().begin(1));
  must(walker().answer(2, 1, read("air/supply air", 5.2)));
  must(walker("Bo").answer(3, 9, bad("window", "clean")));  // whose beginning has not arrived
  const std::string before = shown();
  scene.end_and_reopen();
  EXPECT_EQ(shown(), before);
  must(walker().others(4, 1, {good("look"), good("window", "clean"), good("coolant", "top up")}));
  EXPECT_EQ(state_now(), "walked");
  const std::string walked = shown();
  scene.end_and_reopen();
  EXPECT_EQ(shown(), walked);
}

TEST_F(Rounds, TheOrderOfArrivalChangesNothing) {
  Scene in_order{monday_six, "Europe/Berlin", round_tasks};
  for (Scene* one : {&in_order, &scene}) one->now = one->now + Duration::hours(3);
  const auto walk_all = [](Scene& shop, const std::vector<int>& order) {
    for (const int step : order) {
      const Walker ada{.scene = shop, .ago = Duration::seconds(60 * (60 - 5 * step))};
      if (step == 0) must(ada.begin(1));
      if (step == 1) must(ada.answer(2, 1, bad("look")));
      if (step == 2) must(ada.answer(3, 1, read("air/supply air", 4.2)));
      if (step == 3) must(ada.answer(4, 1, good("look")));
      if (step == 4) must(ada.others(5, 1, {good("window", "clean"), good("coolant", "top up")}));
    }
  };
  walk_all(in_order, {0, 1, 2, 3, 4});
  walk_all(scene, {3, 4, 1, 2, 0});
  EXPECT_EQ(shown(), formats::print_json(must(show_rounds(in_order.shop(), std::nullopt, in_order.now))));
  EXPECT_THAT(answers_now(scene), testing::Contains("look as it should be"));
  EXPECT_EQ(state_now(), "walked");
}

TEST_F(Rounds, TheSameFiveTimesIsOnce) {
  const auto begun = must(walker().begin(1));
  const auto answered = must(walker().answer(2, 1, read("air/supply air", 5.2)));
  for (int i = 0; i < 4; ++i) {
    pass(0.2);
    EXPECT_EQ(must(walker().begin(1)).happened_at, begun.happened_at);
    EXPECT_EQ(must(walker().answer(2, 1, read("air/supply air", 5.2))).ordinal, answered.ordinal);
    scene.end_and_reopen();
  }
  EXPECT_EQ(scene.machine().entries.size(), 2u);
  EXPECT_EQ(round_of(scene).now->walks.size(), 1u);
  EXPECT_EQ(round_of(scene).checks.at(3).last.size(), 1u);
  EXPECT_EQ(walker().answer(2, 7, read("air/supply air", 5.2)).error().code, ErrorCode::conflict);
}

TEST_F(Rounds, AReadingIsJudgedAgainstItsLimitsAndTheLastTenAreShown) {
  const auto judged = must(walker().answer(1, 100, read("air/supply air", 5.2)));
  EXPECT_EQ(judged.answers->at(0).state, "warning");
  EXPECT_EQ(judged.says, "Read the supply air: supply air: 5.2 bar is below the warning limit of 5.5 bar");
  EXPECT_EQ(must(walker().answer(2, 101, read("air/supply air", 7.5))).answers->at(0).state, "action");
  EXPECT_EQ(must(walker().answer(3, 102, read("air/supply air", 6))).answers->at(0).state, "as it should be");
  for (int i = 4; i <= 12; ++i) {
    pass(0.1);
    must(walker().answer(i, 100 + i, read("air/supply air", 6 + 0.01 * i)));
  }
  auto last = round_of(scene).checks.at(3).last;
  ASSERT_EQ(last.size(), 10u);
  EXPECT_NEAR(last.back().value, 6.12, 1e-9);
  EXPECT_NEAR(last.front().value, 6, 1e-9);
  pass(0.01);
  must(walker().answer(13, 112, read("air/supply air", 6.3)));  // corrects the one before
  last = round_of(scene).checks.at(3).last;
  EXPECT_NEAR(last.back().value, 6.3, 1e-9);
  EXPECT_NEAR(last.at(8).value, 6.11, 1e-9);
  EXPECT_EQ(scene.machine().entries.size(), 13u);
  EXPECT_EQ(must(walker().answer(14, 9, read("week/pH", 9.1, "pH"))).answers->at(0).state, "not judged");
}

TEST_F(Rounds, WhatCannotBeIsRefusedWithWhatWouldBeRightAndNothingIsKept) {
  const auto refusal = [&](service::CheckAnswer answer) { return walker().answer(1, 9, answer).error().message; };
  EXPECT_EQ(refusal(read("air/supply air", 75, "psi")),
            "answers[0]: supply air: \"psi\" is not its unit; read it in bar");
  EXPECT_EQ(refusal(read("week/pH", 15, "pH")), "answers[0]: pH: 15 pH cannot be; it is 14 or less");
  EXPECT_THAT(refusal(read("week/pH", -1, "pH")), HasSubstr("0 or more"));
  EXPECT_THAT(refusal(read("air/supply air", 1e10)), HasSubstr("more than any gauge shows"));
  EXPECT_THAT(refusal(good("air/supply air", "reading")), HasSubstr("a value and its unit"));
  auto looked = good("look");
  looked.value = 5;
  EXPECT_THAT(refusal(looked), HasSubstr("only a reading that was read"));
  auto poured = good("coolant", "top up");
  poured.quantity = -2;
  EXPECT_EQ(refusal(poured), "answers[0]: quantity: -2 cannot be; it is 0 or more");
  poured = good("look");
  poured.quantity = 2;
  EXPECT_THAT(refusal(poured), HasSubstr("only a top up"));
  EXPECT_THAT(refusal(good("look", "feel")), HasSubstr("kind: \"feel\" is none of look, reading, clean, top up"));
  auto odd = good("look");
  odd.answer = "fine";
  EXPECT_EQ(refusal(odd), "answers[0]: answer: \"fine\" is none of as it should be, not so");
  EXPECT_THAT(walker().others(1, 9, {bad("look")}).error().message, HasSubstr("of the others each is"));
  EXPECT_THAT(walker().others(1, 9, {good("look"), good("look")}).error().message, HasSubstr("named twice"));
  EXPECT_THAT(walker().others(1, 9, {}).error().message, HasSubstr("name 1 to"));
  EXPECT_THAT(walker().begin(1, {}).error().message, HasSubstr("name 1 to"));
  Walker monthly = walker();
  monthly.rhythm = "month";
  EXPECT_EQ(monthly.begin(1).error().message, "rhythm: \"month\" is none of before start-up, shift, day, week");
  EXPECT_THAT(scene.machine().entries, IsEmpty());
}

TEST_F(Rounds, ATopUpSaysHowMuch) {
  auto poured = good("coolant", "top up");
  poured.quantity = 12.5;
  const auto entry = must(walker().answer(1, 9, poured));
  EXPECT_EQ(entry.says, "Top up the coolant: done, 12.5 l");
  EXPECT_EQ(entry.answers->at(0).quantity_unit, "l");
}

TEST_F(Rounds, WorkThatWasNotDoneDoesNotDoItsTaskButLookingDoes) {
  must(walker().answer(1, 9, bad("window", "clean")));
  must(walker().answer(2, 9, bad("look")));
  EXPECT_FALSE(scene.task("window").last_done);
  EXPECT_EQ(scene.task("look").last_done->id, id_of(2));
}

TEST_F(Rounds, ATelephoneTwoDaysAheadIsRecordedAsSuchAndPutsNothingWrong) {
  pass(2);
  Walker ada = walker();
  ada.clock_off = Duration::hours(48);
  ada.ago = Duration::hours(1);
  const auto begun = must(ada.begin(1));
  EXPECT_EQ(begun.device_off_s, 172'800);
  EXPECT_EQ(print(begun.happened_at), "2026-03-02T06:00:00Z");
  EXPECT_EQ(print(*begun.device_at), "2026-03-04T06:00:00Z");
  EXPECT_EQ(print(begun.at), "2026-03-02T07:00:00Z");
  must(ada.others(
      2, 1, {good("look"), good("window", "clean"), good("coolant", "top up"), good("air/supply air", "reading")}));
  EXPECT_EQ(state_now(), "walked");
  EXPECT_EQ(print(round_of(scene).now->walks.at(0).began_at), "2026-03-02T06:00:00Z");
  EXPECT_EQ(print(*scene.task("look").triggers.at(0).due_on), "2026-03-03");
}

TEST_F(Rounds, WhatComesForAMachineRoundOrCheckThatIsNotThereIsKeptAsStray) {
  must(retire_task(scene.shop(), "mill1", "window", {id_of(1), "Ada", {}, {}}, scene.now));
  must(walker().begin(2));
  auto window = good("window", "clean");
  window.title = "Clean the window";
  const auto others = must(walker().others(3, 2, {good("look"), window}));
  EXPECT_EQ(others.stray, "mill1 has no check \"Clean the window\" (any more)");
  EXPECT_EQ(scene.task("look").last_done->id, id_of(3));  // what is there counts
  EXPECT_FALSE(scene.task("window").last_done);
  EXPECT_EQ(must(walker().answer(4, 2, good("look", "clean"))).stray, "mill1 has no check \"look\" (any more)");
  Walker elsewhere = walker();
  elsewhere.machine = "mill9";
  EXPECT_EQ(must(elsewhere.begin(5)).stray, "there is no machine \"mill9\"");
  EXPECT_EQ(must(elsewhere.answer(6, 5, read("oil/level", 40, "%"))).stray, "there is no machine \"mill9\"");
  Walker daily = walker();
  daily.rhythm = "day";
  EXPECT_EQ(must(daily.begin(7)).stray, "mill1 has no such round (any more): day");
  // The walk set out with the check that is gone, and answers it: the round is walked.
  must(walker().others(8, 2, {good("coolant", "top up"), good("air/supply air", "reading")}));
  EXPECT_EQ(state_now(), "walked");
}

TEST_F(Rounds, BeforeStartUpIsOfTodayAndNeverMissed) {
  Walker ada = walker();
  ada.rhythm = "before start-up";
  must(ada.begin(1, {"start"}));
  must(ada.answer(2, 1, good("start")));
  EXPECT_EQ(round_of(scene, "before start-up").now->state, "walked");
  EXPECT_EQ(scene.task("start").state, "in hand");
  pass(24);
  EXPECT_EQ(round_of(scene, "before start-up").now->state, "open");
  EXPECT_EQ(scene.task("start").state, "due");
  EXPECT_THAT(round_of(scene, "before start-up").past, IsEmpty());
  EXPECT_EQ(scene.task("start").triggers.at(0).calendar, "1 start-up");
}

TEST_F(Rounds, LetTheLastWordsOfAMachineBeToldAnew) {
  const auto version = [&] { return scene.shop().machines().at(0)->tasks_version; };
  const auto before = version();
  must(walker().begin(1));
  const auto begun = version();
  EXPECT_GT(begun, before);
  must(walker().answer(2, 1, good("look")));
  EXPECT_GT(version(), begun);
}

}  // namespace
}  // namespace hw::shop
