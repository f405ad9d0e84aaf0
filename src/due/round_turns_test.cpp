#include "src/due/round_turns.h"

#include <random>
#include <set>

#include <gtest/gtest.h>

namespace hw::due {
namespace {

using catalogue::PlantCalendar;
using catalogue::Rhythm;

// Monday to Friday in two shifts; Friday 2026-05-01 is closed.
PlantCalendar berlin() {
  PlantCalendar calendar;
  calendar.zone = *Zone::find("Europe/Berlin");
  calendar.shifts = {{"early", 360, 840, {1, 2, 3, 4, 5}}, {"late", 840, 1320, {1, 2, 3, 4, 5}}};
  calendar.closed = {{LocalDate::of(2026, 5, 1), "Labour Day"}};
  return calendar;
}

Instant at(std::string_view text) { return *parse_instant(text); }

TimeSpan span(std::string_view begin, std::string_view end) { return {at(begin), at(end)}; }

// "2026-05-04 early" each.
std::vector<std::string> names(const std::vector<RoundTurn>& turns) {
  std::vector<std::string> out;
  for (const RoundTurn& turn : turns) out.push_back(print(turn.on) + (turn.shift.empty() ? "" : " " + turn.shift));
  return out;
}

using Names = std::vector<std::string>;

// Of a round of two checks.
RoundWalk walk(std::string_view begin) { return {at(begin), {"air", "oil"}, {"oil", "air"}}; }
RoundWalk half_walk(std::string_view begin, std::string answered = "air") {
  return {at(begin), {"air", "oil"}, {std::move(answered)}};
}

// The states of the shift's turns from Monday, 4 May, to Tuesday, 5 May, in order: early, late, early, late.
std::vector<std::string> states(const std::vector<RoundWalk>& walks, std::string_view now) {
  const auto turns = turns_of(Rhythm::shift, berlin(), span("2026-05-03T22:00:00Z", "2026-05-05T22:00:00Z"));
  std::vector<std::string> out;
  for (const TurnStanding& one : standings(turns, walks, at(now))) out.emplace_back(word_of(one.state));
  return out;
}

TEST(RoundTurns, EachShiftIsATurnButNotOnClosedDaysAndWeekends) {
  const auto turns = turns_of(Rhythm::shift, berlin(), span("2026-04-29T22:00:00Z", "2026-05-04T22:00:00Z"));
  EXPECT_EQ(names(turns), (Names{"2026-04-30 early", "2026-04-30 late", "2026-05-04 early", "2026-05-04 late"}));
  EXPECT_EQ(print(turns[0].begins_at), "2026-04-30T04:00:00Z");
  EXPECT_EQ(print(turns[0].ends_at), "2026-04-30T12:00:00Z");
}

TEST(RoundTurns, EachWorkingDayIsATurnFromItsFirstShiftToTheEndOfItsLast) {
  auto calendar = berlin();
  calendar.shifts.push_back({"night", 1320, 360, {1, 2, 3, 4}});
  const auto turns = turns_of(Rhythm::day, calendar, span("2026-04-29T22:00:00Z", "2026-05-05T22:00:00Z"));
  EXPECT_EQ(names(turns), (Names{"2026-04-30", "2026-05-04", "2026-05-05"}));
  EXPECT_EQ(print(turns[0].begins_at), "2026-04-30T04:00:00Z");
  EXPECT_EQ(print(turns[0].ends_at), "2026-05-01T04:00:00Z");  // the night shift's, on the closed day
}

TEST(RoundTurns, EachWeekIsATurnFromItsFirstWorkingDayToItsLast) {
  auto calendar = berlin();
  calendar.closed.push_back({LocalDate::of(2026, 4, 27), "bridge"});
  for (int day = 11; day <= 15; ++day)
    calendar.closed.push_back({LocalDate::of(2026, 5, static_cast<unsigned>(day)), "holidays"});
  const auto turns = turns_of(Rhythm::week, calendar, span("2026-04-19T22:00:00Z", "2026-05-24T22:00:00Z"));
  EXPECT_EQ(names(turns), (Names{"2026-04-20", "2026-04-28", "2026-05-04", "2026-05-18"}));
  EXPECT_EQ(print(turns[1].begins_at), "2026-04-28T04:00:00Z");
  EXPECT_EQ(print(turns[1].ends_at), "2026-04-30T20:00:00Z");  // 1 May is closed
}

TEST(RoundTurns, BeforeStartUpIsLeftToTheStart) {
  EXPECT_TRUE(
      turns_of(Rhythm::before_start_up, berlin(), span("2026-05-01T00:00:00Z", "2026-06-01T00:00:00Z")).empty());
}

TEST(RoundTurns, AShiftIsShorterOrLongerByTheHourWhenTheClocksChange) {
  auto calendar = berlin();
  calendar.shifts = {{"night", 1320, 360, {6}}};
  const auto hours = [&](std::string_view begin, std::string_view end) {
    const auto turns = turns_of(Rhythm::shift, calendar, span(begin, end));
    EXPECT_EQ(turns.size(), 1u);
    return (turns.at(0).ends_at - turns.at(0).begins_at).as_hours();
  };
  EXPECT_EQ(hours("2026-03-28T12:00:00Z", "2026-03-29T12:00:00Z"), 7);
  EXPECT_EQ(hours("2026-10-24T12:00:00Z", "2026-10-25T12:00:00Z"), 9);
}

TEST(RoundTurns, WithoutShiftsADayIsItsShiftFromMidnightToMidnightOfThePlant) {
  PlantCalendar calendar;
  calendar.zone = *Zone::find("Europe/Berlin");
  calendar.closed = {{LocalDate::of(2026, 3, 28), "closed"}};
  const auto turns = turns_of(Rhythm::shift, calendar, span("2026-03-26T23:00:00Z", "2026-03-30T22:00:00Z"));
  EXPECT_EQ(names(turns), (Names{"2026-03-27", "2026-03-29", "2026-03-30"}));
  EXPECT_EQ((turns[1].ends_at - turns[1].begins_at).as_hours(), 23);
}

TEST(RoundTurns, ATurnThatHadBegunBeforeTheSpanIsNotExpected) {
  EXPECT_EQ(names(turns_of(Rhythm::shift, berlin(), span("2026-05-04T04:00:01Z", "2026-05-04T20:00:00Z"))),
            (Names{"2026-05-04 late"}));
  EXPECT_TRUE(turns_of(Rhythm::week, berlin(), span("2026-05-05T00:00:00Z", "2026-05-10T00:00:00Z")).empty());
}

TEST(RoundTurns, Property_SpansThatFollowEachOtherShareNoTurnAndLoseNone) {
  const Instant begin = at("2026-03-01T00:00:00Z");
  const Instant end = at("2026-11-30T00:00:00Z");
  for (unsigned seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE(seed);
    std::mt19937_64 random(seed);
    const Instant cut{std::uniform_int_distribution<std::int64_t>(begin.ns, end.ns)(random)};
    for (const Rhythm rhythm : {Rhythm::shift, Rhythm::day, Rhythm::week}) {
      auto parts = names(turns_of(rhythm, berlin(), {begin, cut}));
      const auto rest = names(turns_of(rhythm, berlin(), {cut, end}));
      parts.insert(parts.end(), rest.begin(), rest.end());
      EXPECT_EQ(parts, names(turns_of(rhythm, berlin(), {begin, end})));
    }
  }
}

TEST(RoundStandings, WhatNobodyWalkedIsMissedOnlyOnceItIsOver) {
  EXPECT_EQ(states({}, "2026-05-04T03:59:59Z"), (Names{"ahead", "ahead", "ahead", "ahead"}));
  EXPECT_EQ(states({}, "2026-05-04T04:00:00Z"), (Names{"open", "ahead", "ahead", "ahead"}));
  EXPECT_EQ(states({}, "2026-05-04T12:00:00Z"), (Names{"missed", "open", "ahead", "ahead"}));
  EXPECT_EQ(states({}, "2026-05-04T22:00:00Z"), (Names{"missed", "missed", "ahead", "ahead"}));
}

TEST(RoundStandings, ARoundBegunInItsTurnIsWalkedHoweverLateItEnded) {
  EXPECT_EQ(states({walk("2026-05-04T11:58:00Z")}, "2026-05-04T13:00:00Z"),
            (Names{"walked", "open", "ahead", "ahead"}));
}

TEST(RoundStandings, TwoWhoAnswerHalfEachHaveWalkedTheRoundTogether) {
  const std::vector<RoundWalk> halves{half_walk("2026-05-04T05:00:00Z", "air"),
                                      half_walk("2026-05-04T05:10:00Z", "oil")};
  EXPECT_EQ(states(halves, "2026-05-04T06:00:00Z").at(0), "walked");
  const std::vector<RoundWalk> same{half_walk("2026-05-04T05:00:00Z"), half_walk("2026-05-04T05:10:00Z")};
  EXPECT_EQ(states(same, "2026-05-04T13:00:00Z").at(0), "half walked");
}

TEST(RoundStandings, AWalkWithoutAListCannotMakeATurnWalkedAlone) {
  const RoundWalk answers_only{at("2026-05-04T05:00:00Z"), {}, {"air", "oil"}};
  EXPECT_EQ(states({answers_only}, "2026-05-04T13:00:00Z").at(0), "half walked");
  const RoundWalk list_only{at("2026-05-04T06:00:00Z"), {"oil", "air"}, {}};
  EXPECT_EQ(states({answers_only, list_only}, "2026-05-04T13:00:00Z").at(0), "walked");
}

TEST(RoundStandings, AHalfWalkedRoundIsOpenUntilItsTurnIsOverAndThenShownAsHalfWalked) {
  const std::vector<RoundWalk> half{half_walk("2026-05-04T05:00:00Z")};
  EXPECT_EQ(states(half, "2026-05-04T06:00:00Z").at(0), "open");
  EXPECT_EQ(states(half, "2026-05-04T13:00:00Z").at(0), "half walked");
}

TEST(RoundStandings, OneWhoComesEarlyWalksTheTurnThatBeginsWithinTheHour) {
  EXPECT_EQ(states({walk("2026-05-04T03:00:00Z")}, "2026-05-04T13:00:00Z").at(0), "walked");
  EXPECT_EQ(states({walk("2026-05-04T02:59:59Z")}, "2026-05-04T13:00:00Z").at(0), "missed");
  // At 13:30 the early shift still runs: the walk is the early shift's, not an early one of the late shift.
  EXPECT_EQ(states({walk("2026-05-04T11:30:00Z")}, "2026-05-04T21:00:00Z"),
            (Names{"walked", "missed", "ahead", "ahead"}));
}

TEST(RoundStandings, TwoWhoWalkTheSameRoundAreBothItsWalks) {
  const auto turns = turns_of(Rhythm::shift, berlin(), span("2026-05-03T22:00:00Z", "2026-05-04T22:00:00Z"));
  const auto both =
      standings(turns, {walk("2026-05-04T06:00:00Z"), walk("2026-05-04T05:00:00Z"), half_walk("2026-05-04T04:30:00Z")},
                at("2026-05-04T21:00:00Z"));
  EXPECT_EQ(both[0].walks, (std::vector<std::size_t>{2, 1, 0}));
  EXPECT_EQ(both[0].state, TurnState::walked);
  EXPECT_EQ(both[1].state, TurnState::missed);
  EXPECT_TRUE(both[1].walks.empty());
}

TEST(RoundStandings, WhereTurnsOverlapASecondWalkIsTheNextTurns) {
  auto calendar = berlin();
  calendar.shifts = {{"early", 360, 870, {1}}, {"late", 840, 1320, {1}}};  // both from 14:00 to 14:30
  const auto turns = turns_of(Rhythm::shift, calendar, span("2026-05-03T22:00:00Z", "2026-05-04T22:00:00Z"));
  const auto state = [&](const std::vector<RoundWalk>& walks, std::size_t turn) {
    return standings(turns, walks, at("2026-05-04T21:00:00Z")).at(turn).state;
  };
  const auto handover = walk("2026-05-04T12:10:00Z");
  EXPECT_EQ(state({handover}, 0), TurnState::walked);
  EXPECT_EQ(state({handover}, 1), TurnState::missed);
  EXPECT_EQ(state({handover, walk("2026-05-04T06:00:00Z")}, 1), TurnState::walked);
}

TEST(RoundStandings, AWalkOnAClosedDayMakesNoTurnAndMissesNone) {
  const auto turns = turns_of(Rhythm::day, berlin(), span("2026-04-29T22:00:00Z", "2026-05-03T22:00:00Z"));
  const auto found = standings(turns, {walk("2026-05-01T08:00:00Z")}, at("2026-05-03T12:00:00Z"));
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(print(found[0].turn.on), "2026-04-30");
  EXPECT_EQ(found[0].state, TurnState::missed);
}

TEST(RoundStandings, Property_EachWalkBelongsToOneTurnAtMostAndWalkedTurnsHaveAllAnswers) {
  const auto turns = turns_of(Rhythm::shift, berlin(), span("2026-03-22T22:00:00Z", "2026-04-05T22:00:00Z"));
  for (unsigned seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    std::vector<RoundWalk> walks;
    for (unsigned i = 0; i < seed % 40; ++i) {
      const Instant begin = turns.front().begins_at + Duration::seconds(random() % (15u * 86400));
      walks.push_back({begin, {"air", "oil"}, {}});
      if (random() % 3 != 0) walks.back().answered.push_back("air");
      if (random() % 3 != 0) walks.back().answered.push_back("oil");
    }
    std::vector<int> times(walks.size(), 0);
    for (const TurnStanding& one : standings(turns, walks, turns.back().ends_at)) {
      std::set<std::string> answered;
      for (const std::size_t index : one.walks) {
        ++times[index];
        answered.insert(walks[index].answered.begin(), walks[index].answered.end());
      }
      EXPECT_EQ(one.state == TurnState::walked, answered.size() == 2);
      EXPECT_EQ(one.state == TurnState::missed, one.walks.empty());
    }
    for (const int count : times) EXPECT_LE(count, 1);
  }
}

}  // namespace
}  // namespace hw::due
