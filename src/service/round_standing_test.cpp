#include "src/service/round_standing.h"

#include <gtest/gtest.h>

#include "src/service/round_test.h"

namespace hw::service {
namespace {

using catalogue::Rhythm;

Instant at(std::string_view text) { return *parse_instant(text); }

// Monday to Friday, 06:00 to 14:00 UTC and 13:30 to 22:00.
class RoundStandingTest : public testing::Test {
 protected:
  RoundStandingTest() {
    calendar.shifts = {{"early", 360, 840, {1, 2, 3, 4, 5}}, {"late", 810, 1320, {1, 2, 3, 4, 5}}};
    set_up_round(machine, at("2026-03-02T10:00:00Z"));  // a Monday, in the early shift
  }
  void walk(std::string id, std::string_view begun_at, std::vector<std::string> answered) {
    WalkRecord record{.walk = std::move(id),
                      .rhythm = "shift",
                      .by = "Ada",
                      .begun_at = at(begun_at),
                      .checks = {"window", "coolant"},
                      .answers = {}};
    for (std::string& check : answered) {
      AnswerRecord& answer = record.answers.emplace_back();
      answer.answer.check = std::move(check);
    }
    machine.walks.push_back(std::move(record));
  }
  // "2026-03-02 early open;" each, an asterisk at the one that runs.
  std::string turns(std::string_view now, Rhythm rhythm = Rhythm::shift) {
    const RoundStanding standing = round_standing(calendar, machine, rhythm, at(now));
    std::string text;
    for (std::size_t i = 0; i < standing.turns.size(); ++i) {
      const auto& turn = standing.turns[i];
      text += fmt::format("{} {} {}{};", print(turn.turn.on), turn.turn.shift, word_of(turn.state),
                          standing.now == i ? "*" : "");
    }
    return text;
  }

  catalogue::PlantCalendar calendar;
  OpenMachine machine;
};

TEST_F(RoundStandingTest, ATurnThatRanWhenTheRoundCameToBeIsOpenButNeverMissed) {
  EXPECT_EQ(turns("2026-03-02T11:00:00Z"), "2026-03-02 early open*;");
  EXPECT_EQ(turns("2026-03-02T15:00:00Z"), "2026-03-02 late open*;");
  EXPECT_EQ(turns("2026-03-02T23:00:00Z"), "2026-03-02 late missed;");
}

TEST_F(RoundStandingTest, OfTurnsThatOverlapTheFirstThatIsNotWalkedRuns) {
  EXPECT_EQ(turns("2026-03-02T13:45:00Z"), "2026-03-02 early open*;2026-03-02 late open;");
  walk("w", "2026-03-02T11:00:00Z", {"window", "coolant"});
  EXPECT_EQ(turns("2026-03-02T13:45:00Z"), "2026-03-02 early walked;2026-03-02 late open*;");
}

TEST_F(RoundStandingTest, WithinTheHourTheTurnAheadIsTheOneThatRuns) {
  EXPECT_EQ(turns("2026-03-03T04:59:00Z"), "2026-03-02 late missed;");
  EXPECT_EQ(turns("2026-03-03T05:01:00Z"), "2026-03-02 late missed;2026-03-03 early ahead*;");
}

TEST_F(RoundStandingTest, WalksStandInOrderOfTimeHoweverTheyArrived) {
  walk("b", "2026-03-02T11:00:00Z", {"window"});
  walk("a", "2026-03-02T11:00:00Z", {"coolant"});
  walk("c", "2026-03-02T10:30:00Z", {});
  const auto standing = round_standing(calendar, machine, Rhythm::shift, at("2026-03-02T12:00:00Z"));
  std::string ids;
  for (const WalkRecord* one : standing.walks_of(standing.turns.at(0))) ids += one->walk;
  EXPECT_EQ(ids, "cab");
  EXPECT_EQ(standing.turns.at(0).state, due::TurnState::walked);
}

TEST_F(RoundStandingTest, BeforeStartUpYesterdaysLateWalkIsNotTodays) {
  machine.walks.push_back({.walk = "w",
                           .rhythm = "before start-up",
                           .by = "Ada",
                           .begun_at = at("2026-03-02T23:30:00Z"),
                           .checks = {"a"},
                           .answers = {}});
  machine.walks.back().answers.emplace_back().answer.check = "a";
  machine.record.tasks.push_back(round_task("a", catalogue::WorkType::inspect));
  machine.record.tasks.back().task.triggers = {
      catalogue::CalendarTrigger{*catalogue::parse_calendar_interval("1 start-up"), 0, 0}};
  EXPECT_EQ(turns("2026-03-03T07:00:00Z", Rhythm::before_start_up), "2026-03-02  walked;2026-03-03  open*;");
  EXPECT_EQ(rhythms_of(machine).size(), 2u);
}

TEST_F(RoundStandingTest, RetiredTasksMakeNoRound) {
  for (auto& task : machine.record.tasks) task.retired_at = Instant{};
  EXPECT_TRUE(rounds_of(machine).empty());
  EXPECT_TRUE(rhythms_of(machine).empty());
}

}  // namespace
}  // namespace hw::service
