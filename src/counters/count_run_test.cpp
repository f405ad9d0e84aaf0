#include "src/counters/count_run.h"

#include <gtest/gtest.h>

#include "src/counters/scene_test.h"

namespace hw::counters {
namespace {

Report counted(const std::vector<Observation>& arrivals, double from, double to, const CountSettings& settings = {},
               const MachineModel& model = scene_machine()) {
  const std::vector<Source> sources = {arrivals};
  auto report = count_run(model, sources, {at_s(from), at_s(to)}, settings);
  EXPECT_TRUE(report) << report.error().message;
  return *report;
}

const std::optional<Tally>& tally_of(const Report& report, CounterKind kind) {
  return report.counters[static_cast<std::size_t>(kind)];
}

double yes_s(const Report& report, CounterKind kind) {
  return static_cast<double>(tally_of(report, kind)->counted_ns()) / 1e9;
}

double unknown_s(const Report& report, CounterKind kind) {
  return static_cast<double>(tally_of(report, kind)->unknown_ns()) / 1e9;
}

TEST(CountRun, AValueHoldsUntilTheNextObservationOfItsItem) {
  const Report report = counted({seen(0, exec, 0), seen(10, exec, 1), seen(25, exec, 0), seen(40, exec, 1)}, 0, 60);
  EXPECT_EQ(yes_s(report, CounterKind::operating), 35);
  EXPECT_EQ(tally_of(report, CounterKind::operating)->starts, 2U);
  EXPECT_EQ(unknown_s(report, CounterKind::operating), 0);
}

TEST(CountRun, EarlierObservationsSetTheStateAndLaterOnesDoNotCount) {
  const Report report = counted({seen(-100, exec, 1), seen(20, exec, 0), seen(30, exec, 1)}, 0, 30);
  EXPECT_EQ(yes_s(report, CounterKind::operating), 20);
  EXPECT_EQ(tally_of(report, CounterKind::operating)->starts, 0U);
}

TEST(CountRun, TimeBeforeTheFirstObservationIsUnknown) {
  const Report report = counted({seen(7, exec, 1)}, 0, 10);
  EXPECT_EQ(yes_s(report, CounterKind::operating), 3);
  EXPECT_EQ(unknown_s(report, CounterKind::operating), 7);
}

TEST(CountRun, AnItemThatIsNeverKnownIsAbsent) {
  const Report report = counted({seen(0, exec, 1), seen(0, speed1, gone), seen(5, speed1, gone)}, 0, 10);
  EXPECT_FALSE(tally_of(report, CounterKind::spindle));
  EXPECT_FALSE(tally_of(report, CounterKind::cutting));
  EXPECT_EQ(report.items.size(), 1U);
}

TEST(CountRun, AnItemKnownOnlyAfterTheWindowIsUnknownInIt) {
  const Report report = counted({seen(0, exec, 1), seen(50, speed1, 100)}, 0, 10);
  ASSERT_TRUE(tally_of(report, CounterKind::spindle));
  EXPECT_EQ(unknown_s(report, CounterKind::spindle), 10);
}

TEST(CountRun, TheLastOfATieWinsAndNoStartIsCountedForAFlick) {
  const Report report = counted({seen(0, exec, 0), seen(5, exec, 1), seen(5, exec, 0)}, 0, 10);
  EXPECT_EQ(yes_s(report, CounterKind::operating), 0);
  EXPECT_EQ(tally_of(report, CounterKind::operating)->starts, 0U);
}

TEST(CountRun, TiesOfSeveralItemsSettleBeforeAnythingCounts) {
  const Report report = counted({seen(0, exec, 1), seen(0, speed1, 0), seen(0, path, 5), seen(5, speed1, 9),
                                 seen(5, path, 0), seen(8, path, 5), seen(8, speed1, 0)},
                                0, 10);
  EXPECT_EQ(tally_of(report, CounterKind::cutting)->starts, 0U);
}

// Three values of one item at one time, the third a repeat of the first: it is dropped, so the second holds.
TEST(CountRun, ARepeatAtOneTimeIsDropped) {
  const Report again = counted({seen(0, exec, 1), seen(0, exec, -2), seen(0, exec, 1)}, 0, 10);
  EXPECT_EQ(yes_s(again, CounterKind::operating), 0);
  const Report another = counted({seen(0, exec, -1), seen(0, exec, 1), seen(0, exec, -2)}, 0, 10);
  EXPECT_EQ(yes_s(another, CounterKind::operating), 0);
}

TEST(CountRun, AnUnavailableThatArrivesAfterALaterStampTakesItsTime) {
  // The machine's clock is 40 s ahead of the agent's: the agent stamps the loss at 60, the last value bears 100.
  const std::vector<Observation> arrivals = {seen(0, exec, 0), seen(100, exec, 1), seen(60, exec, gone),
                                             seen(5000, exec, 0)};
  const Report report = counted(arrivals, 0, 6000);
  EXPECT_EQ(yes_s(report, CounterKind::operating), 0);
  EXPECT_EQ(unknown_s(report, CounterKind::operating), 4900);
}

TEST(CountRun, ClocksAreTrustedBeyond900Seconds) {
  const Report at_limit = counted({seen(0, exec, 0), seen(1000, exec, 1), seen(100, exec, gone)}, 0, 2000);
  EXPECT_EQ(unknown_s(at_limit, CounterKind::operating), 1000);
  const Report beyond = counted({seen(0, exec, 0), seen(1000.001, exec, 1), seen(100, exec, gone)}, 0, 2000);
  EXPECT_EQ(unknown_s(beyond, CounterKind::operating), 900.001);
  EXPECT_EQ(yes_s(beyond, CounterKind::operating), 999.999);
}

TEST(CountRun, AnUnavailableThatComesAgainIsNotMovedBehindLaterValues) {
  const std::vector<Observation> block = {seen(0, exec, 1), seen(100, exec, gone), seen(300, exec, 1),
                                          seen(400, exec, 0)};
  std::vector<Observation> twice = block;
  twice.insert(twice.end(), block.begin(), block.end());
  EXPECT_EQ(counted(twice, 0, 500).counters, counted(block, 0, 500).counters);
}

TEST(CountRun, TheRuleForTwoClocksLooksAtEachItemByItself) {
  const Report report = counted({seen(0, exec, 1), seen(50, speed1, 5), seen(20, exec, gone)}, 0, 100);
  EXPECT_EQ(yes_s(report, CounterKind::operating), 20);
}

TEST(CountRun, ConnectedAsksForOneKnownItemAndIsNeverUnknown) {
  const Report report =
      counted({seen(10, exec, 0), seen(20, timer, 5), seen(30, exec, gone), seen(40, timer, gone)}, 0, 100);
  EXPECT_EQ(yes_s(report, CounterKind::connected), 30);
  EXPECT_EQ(unknown_s(report, CounterKind::connected), 0);
  EXPECT_EQ(tally_of(report, CounterKind::connected)->starts, 1U);
}

TEST(CountRun, ALoadThatNothingUsesConnectsNothing) {
  const std::vector<Observation> arrivals = {seen(0, exec, 1), seen(10, exec, gone), seen(20, load1, 5)};
  EXPECT_EQ(yes_s(counted(arrivals, 0, 30), CounterKind::connected), 10);
  CountSettings settings;
  settings.load_above_percent = 0;
  EXPECT_EQ(yes_s(counted(arrivals, 0, 30, settings), CounterKind::connected), 20);
}

TEST(CountRun, PoweredNeedsAvailabilityAndNoPowerThatIsOff) {
  const Report report = counted({seen(0, avail, 1), seen(10, power, 0), seen(20, power, gone), seen(30, power, 1),
                                 seen(40, avail, gone), seen(50, power, 0), seen(60, avail, 1)},
                                0, 100);
  EXPECT_EQ(yes_s(report, CounterKind::powered), 30);      // 0-10, 20-40
  EXPECT_EQ(unknown_s(report, CounterKind::powered), 20);  // 40-60, though the power is known to be off from 50 on
  EXPECT_EQ(tally_of(report, CounterKind::powered)->false_ns(), ns_of_s(50));  // 10-20, 60-100
}

TEST(CountRun, WithoutAvailabilityPoweredIsAllPowerStates) {
  MachineModel model = scene_machine();
  model.items.push_back(item_of("power2", Role::power_state));
  const auto power2 = static_cast<std::uint32_t>(model.items.size() - 1);
  const Report report = counted(
      {seen(0, avail, gone), seen(0, power, 1), seen(10, power2, 1), seen(20, power, gone), seen(30, power2, 0)}, 0, 40,
      {}, model);
  EXPECT_EQ(yes_s(report, CounterKind::powered), 10);
  EXPECT_EQ(unknown_s(report, CounterKind::powered), 20);
  EXPECT_EQ(tally_of(report, CounterKind::powered)->false_ns(), ns_of_s(10));
}

TEST(CountRun, WithoutBothPoweredIsNotAvailableUnlessAnyItemMayStand) {
  const std::vector<Observation> arrivals = {seen(10, exec, 0)};
  EXPECT_FALSE(tally_of(counted(arrivals, 0, 30), CounterKind::powered));
  CountSettings settings;
  settings.powered_sources.push_back(PoweredSource::any_item);
  EXPECT_EQ(yes_s(counted(arrivals, 0, 30, settings), CounterKind::powered), 20);
}

TEST(CountRun, AnySpindleTurnsTheMachinesAndEachHasItsOwn) {
  const Report report = counted({seen(0, speed1, 0), seen(0, speed2, gone), seen(10, speed1, -500), seen(20, speed2, 0),
                                 seen(30, speed1, 0), seen(40, speed2, 60), seen(45, speed1, -0.0)},
                                0, 50);
  EXPECT_EQ(yes_s(report, CounterKind::spindle), 30);
  EXPECT_EQ(unknown_s(report, CounterKind::spindle), 10);  // 0-10: one stands, the other is unknown
  ASSERT_EQ(report.items.size(), 2U);
  EXPECT_EQ(report.items[0].tally.counted_ns(), ns_of_s(20));
  EXPECT_NEAR(report.items[0].tally.amount, 500.0 / 60 * 20, 1e-9);
  EXPECT_NEAR(report.items[1].tally.amount, 10, 1e-9);
}

TEST(CountRun, FeedingIsThePathsAxisAnyOfThem) {
  const Report report = counted({seen(0, path, 0), seen(0, rapid, 0), seen(0, axis_x, 0), seen(0, rotary, 0),
                                 seen(10, rapid, 100), seen(20, rapid, 0), seen(30, path, 2), seen(40, path, 0),
                                 seen(50, axis_x, -1), seen(60, axis_x, 0), seen(70, rotary, 90), seen(80, rotary, 0)},
                                0, 100);
  EXPECT_EQ(yes_s(report, CounterKind::feeding), 10);
  EXPECT_EQ(yes_s(report, CounterKind::axis), 30);
  EXPECT_NEAR(report.items.back().tally.amount, 90.0 * 10 / 360, 1e-9) << "turns of the rotary axis";
  EXPECT_EQ(report.items.back().tally.counted_ns(), ns_of_s(10));
}

TEST(CountRun, CuttingTakesAxisMotionWhereThereIsNoPathFeed) {
  const Report report = counted({seen(0, exec, 1), seen(0, speed1, 9), seen(0, axis_x, 0), seen(10, axis_x, 3)}, 0, 30);
  EXPECT_EQ(yes_s(report, CounterKind::cutting), 20);
  EXPECT_FALSE(tally_of(report, CounterKind::feeding));
}

TEST(CountRun, AFalsePartMakesCuttingFalseThoughOthersAreUnknown) {
  const Report report = counted({seen(0, exec, 0), seen(0, speed1, 9), seen(0, path, 3), seen(10, speed1, gone),
                                 seen(20, exec, 1), seen(30, speed1, 9)},
                                0, 40);
  EXPECT_EQ(tally_of(report, CounterKind::cutting)->false_ns(), ns_of_s(20));
  EXPECT_EQ(unknown_s(report, CounterKind::cutting), 10);
  EXPECT_EQ(yes_s(report, CounterKind::cutting), 10);
}

TEST(CountRun, ALoadLimitHoldsOnlyForTheSpindleThatHasALoad) {
  CountSettings settings;
  settings.load_above_percent = 5;
  const Report report = counted({seen(0, exec, 1), seen(0, path, 3), seen(0, speed1, 9), seen(0, speed2, 0),
                                 seen(0, load1, 5), seen(10, load1, 6), seen(20, load1, 0), seen(30, speed2, 7)},
                                0, 40, settings);
  EXPECT_EQ(yes_s(report, CounterKind::cutting), 20);  // 10-20 by its load, 30-40 by the spindle without one
  EXPECT_EQ(yes_s(report, CounterKind::spindle), 40);
}

TEST(CountRun, ALoadThatIsNeverKnownIsNoCondition) {
  CountSettings settings;
  settings.load_above_percent = 5;
  const Report report =
      counted({seen(0, exec, 1), seen(0, path, 3), seen(0, speed1, 9), seen(0, load1, gone)}, 0, 40, settings);
  EXPECT_EQ(yes_s(report, CounterKind::cutting), 40);
}

TEST(CountRun, OwnCountersAreReadAsSteps) {
  const Report report = counted({seen(-10, timer, 100), seen(5, timer, 130), seen(6, timer, 128), seen(7, timer, gone),
                                 seen(20, timer, 140), seen(20, exec, 1), seen(31, timer, 999)},
                                0, 30);
  ASSERT_EQ(report.own_counters.size(), 1U);
  const OwnReadings& own = report.own_counters[0].readings;
  EXPECT_EQ(own.first, 100);  // as it stands when the window begins
  EXPECT_EQ(own.last, 140);
  EXPECT_EQ(own.rises, 30 + 12);
  EXPECT_EQ(own.falls, 1U);
}

TEST(CountRun, DaysAreCutAtTheZonesMidnights) {
  CountSettings settings;
  settings.by_day = true;
  settings.zone = *Zone::find("Europe/Berlin");
  const Instant from = *parse_instant("2026-03-28T00:00:00Z"), to = *parse_instant("2026-03-30T22:00:00Z");
  const std::vector<Observation> arrivals = {{from, exec, 1}};
  const std::vector<Source> sources = {arrivals};
  const Report report = *count_run(scene_machine(), sources, {from, to}, settings);
  std::vector<std::pair<std::string, std::int64_t>> hours;
  for (const auto& [date, tallies] : report.days) {
    hours.emplace_back(print(date), tallies[2].counted_ns() / Duration::hours(1).ns);
  }
  const std::vector<std::pair<std::string, std::int64_t>> expected = {
      {"2026-03-28", 23}, {"2026-03-29", 23}, {"2026-03-30", 24}};  // the 28th from 1:00 on, the 29th has 23 h
  EXPECT_EQ(hours, expected);
}

MachineModel machine_with_positions() {
  MachineModel model;
  model.name = "mill-2";
  model.items = {item_of("X", Role::position), item_of("Y", Role::position), item_of("F", Role::path_feed)};
  return model;
}

TEST(CountRun, ChangedPositionsMeanMotionDuringTheTwoSecondsBefore) {
  const Report report = counted({seen(0, 0, 1), seen(10, 0, 2), seen(11, 0, 3), seen(20, 0, 3.001), seen(30, 0, 3.003)},
                                0, 40, {}, machine_with_positions());
  EXPECT_EQ(yes_s(report, CounterKind::axis), 3 + 2);  // 8-11, and 28-30; 3.000 to 3.001 is within the dead band
  EXPECT_EQ(tally_of(report, CounterKind::axis)->starts, 2U);
}

TEST(CountRun, MotionIsCutByTheWindowOnBothSides) {
  const Report report =
      counted({seen(0, 0, 1), seen(11, 0, 2), seen(31, 0, 3), seen(40, 0, 4)}, 10, 30, {}, machine_with_positions());
  EXPECT_EQ(yes_s(report, CounterKind::axis), 1 + 1);  // 10-11 of 9-11, and 29-30 of 29-31
}

TEST(CountRun, AnUnknownPositionEndsThePair) {
  const Report report =
      counted({seen(0, 0, 1), seen(10, 0, gone), seen(20, 0, 9)}, 0, 30, {}, machine_with_positions());
  EXPECT_EQ(yes_s(report, CounterKind::axis), 0);
  EXPECT_EQ(unknown_s(report, CounterKind::axis), 10);
}

TEST(CountRun, PositionsDoNotCountWhereAFeedRateIsKnown) {
  const Report report = counted({seen(0, 0, 1), seen(10, 0, 2), seen(20, 2, 0)}, 0, 30, {}, machine_with_positions());
  EXPECT_EQ(yes_s(report, CounterKind::axis), 0);
  EXPECT_EQ(unknown_s(report, CounterKind::axis), 20);
}

TEST(CountRun, MachineCoordinatesComeFirst) {
  MachineModel model = machine_with_positions();
  model.items[1].coordinate_system = "MACHINE";
  const Report report = counted({seen(0, 0, 1), seen(0, 1, 5), seen(10, 0, 2), seen(20, 1, 6)}, 0, 30, {}, model);
  EXPECT_EQ(yes_s(report, CounterKind::axis), 2);
  EXPECT_EQ(report.items.size(), 1U);
}

TEST(CountRun, TheWindowIsFirstToLastTimeSeenUnlessNamed) {
  const std::vector<Observation> arrivals = {seen(5, exec, 1), seen(3, path, 1), seen(9, exec, 0)};
  const std::vector<Source> sources = {arrivals};
  const Report report = *count_run(scene_machine(), sources, {}, {});
  EXPECT_EQ(report.from, at_s(3));
  EXPECT_EQ(report.to, at_s(9));
}

TEST(CountRun, RefusesAnEmptyWindowNoObservationsAndTwoHundredYears) {
  const std::vector<Observation> arrivals = {seen(5, exec, 1)};
  const std::vector<Source> sources = {arrivals};
  EXPECT_FALSE(count_run(scene_machine(), sources, {at_s(9), at_s(9)}, {}));
  EXPECT_FALSE(count_run(scene_machine(), sources, {}, {}));
  EXPECT_FALSE(count_run(scene_machine(), {}, {}, {}));
  EXPECT_FALSE(count_run(scene_machine(), sources, {*parse_instant("1700-01-01T00:00:00Z"), at_s(0)}, {}));
}

}  // namespace
}  // namespace hw::counters
