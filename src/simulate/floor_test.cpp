#include "src/simulate/floor.h"

#include <algorithm>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "src/counters/count_run.h"
#include "src/simulate/phase.h"

namespace hw::simulate {
namespace {

constexpr std::uint64_t seed = 20260302;

FloorPlan plan_of(FeedQuality feed) {
  FloorPlan plan;
  plan.seed = seed;
  plan.zone = *Zone::find("Europe/Berlin");
  plan.begins_on = LocalDate::of(2026, 3, 2);  // a Monday; the clock goes forward on 29 March
  plan.closed_on = {LocalDate::of(2026, 4, 3), LocalDate::of(2026, 4, 6)};
  plan.feed = feed;
  return plan;
}

std::vector<MachineEntry> one_of_each_kind() {
  std::vector<MachineEntry> entries = sample_entries();
  entries[23].kind = Kind::surface_grinder;
  return entries;
}

std::string print(const Event& e) {
  return fmt::format("{} {} #{} {}", e.arrives_at.as_millis(), e.at.as_millis(), e.item, e.value);
}

std::vector<std::string> print(const std::vector<Event>& events) {
  std::vector<std::string> out;
  for (const Event& event : events) out.push_back(print(event));
  return out;
}

std::vector<Event> told(const Floor& floor, std::size_t machine, Instant from, Instant to, Detail detail) {
  std::vector<Event> out;
  floor.tell(machine, from, to, detail, out);
  return out;
}

// What stands at `from` and all that follows, as counters want it.
std::vector<counters::Observation> observed(const Floor& floor, std::size_t machine, Instant from, Instant to,
                                            Detail detail) {
  std::vector<counters::Observation> out;
  const Machine& teller = floor.machines()[machine];
  for (const Event& event : floor.standing(machine, from)) out.push_back(observation_of(teller, event));
  for (const Event& event : told(floor, machine, from, to, detail)) out.push_back(observation_of(teller, event));
  return out;
}

// Counts by looking at the state between any two events, as a person with a stop watch would.
class StopWatch {
 public:
  explicit StopWatch(const Machine& machine)
      : machine_(machine), last_(machine.tells.size(), counters::unknown_value) {}

  TrueUse count(const std::vector<Event>& standing, const std::vector<Event>& events, Instant from, Instant to) {
    for (const Event& event : standing) last_[event.item] = event.value;
    Instant at = from;
    for (const Event& event : events) {
      pass(event.arrives_at - at);
      at = event.arrives_at;
      last_[event.item] = event.value;
    }
    pass(to - at);
    return use_;
  }

 private:
  bool any(Signal signal) const {
    for (std::size_t i = 0; i < last_.size(); ++i) {
      if (machine_.tells[i].signal == signal && last_[i] > 0) return true;
    }
    return false;
  }
  double value_of(Signal signal) const {
    for (std::size_t i = 0; i < last_.size(); ++i) {
      if (machine_.tells[i].signal == signal) return last_[i];
    }
    return counters::unknown_value;
  }
  void pass(Duration duration) {
    const auto add = [&](Duration& sum, bool counts) { sum = counts ? sum + duration : sum; };
    const bool operates = value_of(Signal::execution) == static_cast<double>(Execution::active);
    const bool feeds = any(Signal::path_feed);
    add(use_.powered, any(Signal::power_state));
    add(use_.operating, operates);
    add(use_.spindle, any(Signal::spindle_speed));
    add(use_.feeding, feeds);
    add(use_.axis, feeds || any(Signal::axis_feed));
    add(use_.cutting, operates && any(Signal::spindle_speed) && feeds);
  }

  const Machine& machine_;
  std::vector<double> last_;
  TrueUse use_;
};

class FaithfulFloor : public ::testing::TestWithParam<Detail> {
 protected:
  const Floor floor{plan_of(FeedQuality::faithful), one_of_each_kind()};
  const Instant from = floor.plan().zone.at(LocalDate::of(2026, 3, 5), 7 * 60 + 13);
  const Instant to = floor.plan().zone.at(LocalDate::of(2026, 3, 19), 15 * 60 + 41);
};

TEST_P(FaithfulFloor, TruthEqualsAStopWatchHeldBesideTheEvents) {
  for (std::size_t m = 0; m < floor.machines().size(); ++m) {
    const Machine& machine = floor.machines()[m];
    if (!machine.traits.has_feed_rates) continue;
    const TrueUse counted =
        StopWatch(machine).count(floor.standing(m, from), told(floor, m, from, to, GetParam()), from, to);
    const TrueUse truth = floor.truth(m, from, to);
    EXPECT_EQ(counted.powered, truth.powered) << machine.entry.key << ", seed " << seed;
    EXPECT_EQ(counted.operating, truth.operating) << machine.entry.key;
    EXPECT_EQ(counted.spindle, truth.spindle) << machine.entry.key;
    EXPECT_EQ(counted.axis, truth.axis) << machine.entry.key;
    EXPECT_EQ(counted.feeding, truth.feeding) << machine.entry.key;
    EXPECT_EQ(counted.cutting, truth.cutting) << machine.entry.key;
  }
}

TEST_P(FaithfulFloor, TheCountersCountTheTruth) {
  using counters::CounterKind;
  for (std::size_t m = 0; m < floor.machines().size(); ++m) {
    const Machine& machine = floor.machines()[m];
    const std::vector<counters::Observation> run = observed(floor, m, from, to, GetParam());
    const counters::Source sources[] = {run};
    const auto report = counters::count_run(machine.model, sources, {from, to}, {});
    ASSERT_TRUE(report) << report.error().message;
    const TrueUse truth = floor.truth(m, from, to);
    const auto expect = [&](CounterKind kind, Duration duration) {
      const auto& tally = report->counters.at(static_cast<std::size_t>(kind));
      ASSERT_TRUE(tally) << machine.entry.key << " " << word_of(kind);
      EXPECT_EQ(tally->counted_ns(), duration.ns) << machine.entry.key << " " << word_of(kind) << ", seed " << seed;
      EXPECT_EQ(tally->unknown_ns(), 0) << machine.entry.key << " " << word_of(kind);
    };
    expect(CounterKind::powered, truth.powered);
    expect(CounterKind::operating, truth.operating);
    expect(CounterKind::spindle, truth.spindle);
    expect(CounterKind::axis, truth.axis);
    expect(CounterKind::cutting, truth.cutting);
    if (machine.traits.has_feed_rates) expect(CounterKind::feeding, truth.feeding);
  }
}

INSTANTIATE_TEST_SUITE_P(BothDetails, FaithfulFloor, ::testing::Values(Detail::turns, Detail::full));

TEST(Floor, AnySplitOfASpanTellsTheSame) {
  const Floor floor(plan_of(FeedQuality::lossy), one_of_each_kind());
  const Floor other(plan_of(FeedQuality::lossy), one_of_each_kind());
  const Instant from = floor.plan().zone.at(LocalDate::of(2026, 3, 27), 5 * 60);
  const Instant to = from + Duration::hours(100);
  for (const std::size_t m : {0U, 1U, 4U, 5U, 10U, 23U}) {
    const std::vector<Event> whole = told(floor, m, from, to, Detail::full);
    std::vector<Event> parts;
    // Pieces of growing, odd lengths, asked for backwards in days on another floor of the same seed.
    Duration length = Duration::millis(61'001);
    for (Instant at = from; at < to; at = at + length, length = length + length) {
      other.tell(m, at, std::min(to, at + length), Detail::full, parts);
    }
    EXPECT_EQ(print(whole), print(parts)) << "machine " << m << ", seed " << seed;
  }
}

TEST(Floor, AnotherSeedTellsSomethingElse) {
  FloorPlan plan = plan_of(FeedQuality::lossy);
  const Floor floor(plan, one_of_each_kind());
  plan.seed = seed + 1;
  const Floor other(plan, one_of_each_kind());
  const Instant from = plan.zone.at(LocalDate::of(2026, 3, 10), 8 * 60);
  const Instant to = from + Duration::hours(1);
  EXPECT_NE(print(told(floor, 0, from, to, Detail::full)), print(told(other, 0, from, to, Detail::full)));
}

TEST(Floor, TruthOfPartsAddsUp) {
  const Floor floor(plan_of(FeedQuality::lossy), one_of_each_kind());
  const Instant from = floor.plan().zone.at(LocalDate::of(2026, 3, 3), 6 * 60);
  const Instant middle = from + Duration{123'456'789'012'345};
  const Instant to = from + Duration::hours(24 * 5);
  for (std::size_t m = 0; m < floor.machines().size(); ++m) {
    const TrueUse whole = floor.truth(m, from, to);
    const TrueUse first = floor.truth(m, from, middle);
    const TrueUse second = floor.truth(m, middle, to);
    EXPECT_EQ(whole.cutting, first.cutting + second.cutting);
    EXPECT_EQ(whole.powered, first.powered + second.powered);
    EXPECT_EQ(whole.parts, first.parts + second.parts);
    EXPECT_LE(whole.cutting, whole.operating);
    EXPECT_LE(whole.operating, whole.automatic);
    EXPECT_LE(whole.automatic, whole.powered);
    EXPECT_LE(whole.powered, to - from);
  }
}

// A lost connection hides time, it invents none: the truth lies between what is counted and that plus the unknown. Each
// break may move an edge by what the machine's clock runs ahead.
TEST(Floor, CountedAndUnknownEncloseTheTruthOfALossyFeed) {
  using counters::CounterKind;
  const Floor floor(plan_of(FeedQuality::lossy), one_of_each_kind());
  const Instant from = floor.plan().zone.at(LocalDate::of(2026, 3, 9), 0);
  const Instant to = from + Duration::hours(24 * 14);
  for (std::size_t m = 0; m < floor.machines().size(); ++m) {
    const Machine& machine = floor.machines()[m];
    const std::vector<counters::Observation> run = observed(floor, m, from, to, Detail::full);
    const counters::Source sources[] = {run};
    const auto report = counters::count_run(machine.model, sources, {from, to}, {});
    ASSERT_TRUE(report) << report.error().message;
    const auto breaks = std::count_if(run.begin(), run.end(), [&](const counters::Observation& o) {
      return machine.tells[o.item].signal == Signal::execution && counters::is_unknown(o.value);
    });
    // Positions alone show a motion late or not at all at a break's edges.
    const std::int64_t slack_ms = (breaks + 2) * (2 * machine.traits.clock_ahead_ms + 4000);
    const TrueUse truth = floor.truth(m, from, to);
    const auto expect = [&](CounterKind kind, Duration duration) {
      const auto& tally = report->counters.at(static_cast<std::size_t>(kind));
      ASSERT_TRUE(tally) << machine.entry.key;
      EXPECT_LE(tally->counted_ns(), duration.ns + slack_ms * 1'000'000) << machine.entry.key << " " << word_of(kind);
      EXPECT_GE(tally->counted_ns() + tally->unknown_ns(), duration.ns - slack_ms * 1'000'000)
          << machine.entry.key << " " << word_of(kind);
      EXPECT_GT(tally->unknown_ns(), 0) << machine.entry.key << " loses its feed in two weeks";
    };
    expect(CounterKind::operating, truth.operating);
    expect(CounterKind::spindle, truth.spindle);
    expect(CounterKind::axis, truth.axis);
    expect(CounterKind::cutting, truth.cutting);
    if (!machine.traits.falls_silent_when_off) expect(CounterKind::powered, truth.powered);
  }
}

TEST(Floor, WeeksArePlausibleForEachKind) {
  struct Bounds {
    double operating_min, operating_max, cutting_min, spindle_max;
  };
  const auto bounds_of = [](Kind kind) -> Bounds {
    switch (kind) {
      case Kind::surface_grinder:
        return {15, 36, 14, 45};
      case Kind::horizontal_mill:
        return {50, 85, 45, 85};
      case Kind::cylindrical_grinder:
        return {35, 62, 33, 78};
      default:
        return {35, 72, 32, 72};
    }
  };
  const Floor floor(plan_of(FeedQuality::faithful), one_of_each_kind());
  const Instant from = floor.plan().zone.begin_of(LocalDate::of(2026, 4, 13));
  constexpr int weeks = 8;
  const Instant to = floor.plan().zone.begin_of(LocalDate::of(2026, 4, 13) + 7 * weeks);
  for (std::size_t m = 0; m < floor.machines().size(); ++m) {
    const Machine& machine = floor.machines()[m];
    const TrueUse use = floor.truth(m, from, to);
    const Bounds bounds = bounds_of(machine.entry.kind);
    const std::string what = machine.entry.key + " " + std::string(print(machine.entry.kind));
    EXPECT_GT(use.operating.as_hours() / weeks, bounds.operating_min) << what;
    EXPECT_LT(use.operating.as_hours() / weeks, bounds.operating_max) << what;
    EXPECT_GT(use.cutting.as_hours() / weeks, bounds.cutting_min) << what;
    EXPECT_LT(use.spindle.as_hours() / weeks, bounds.spindle_max) << what;
    EXPECT_GT(use.parts, 0) << what;
  }
}

TEST(Floor, NobodyWorksOnSundaysHolidaysAndAtNight) {
  const Floor floor(plan_of(FeedQuality::faithful), one_of_each_kind());
  const Zone& zone = floor.plan().zone;
  for (std::size_t m = 0; m < floor.machines().size(); ++m) {
    for (const LocalDate date : {LocalDate::of(2026, 3, 29), LocalDate::of(2026, 4, 6)}) {
      const TrueUse use = floor.truth(m, zone.begin_of(date) + Duration::hours(4), zone.end_of(date));
      EXPECT_EQ(use.operating.ns, 0) << print(date);
      EXPECT_EQ(use.axis.ns, 0) << print(date);
    }
    const LocalDate working = LocalDate::of(2026, 4, 21);
    EXPECT_EQ(floor.truth(m, zone.at(working, 3 * 60), zone.at(working, 5 * 60)).operating.ns, 0);
  }
}

TEST(Floor, WhatStandsIsWhatWasToldLast) {
  const Floor floor(plan_of(FeedQuality::lossy), one_of_each_kind());
  const Instant from = floor.begin_of_first_day();
  const Instant at = floor.plan().zone.at(LocalDate::of(2026, 3, 4), 11 * 60 + 7);
  for (std::size_t m = 0; m < floor.machines().size(); ++m) {
    std::vector<Event> last = floor.standing(m, from);
    for (const Event& event : told(floor, m, from, at, Detail::full)) last[event.item] = event;
    const std::vector<Event> standing = floor.standing(m, at);
    for (std::size_t item = 0; item < last.size(); ++item) {
      EXPECT_EQ(counters::is_unknown(last[item].value), counters::is_unknown(standing[item].value));
      if (counters::is_unknown(last[item].value)) continue;
      EXPECT_EQ(last[item].value, standing[item].value) << floor.machines()[m].model.items[item].id;
    }
  }
}

TEST(Floor, ValuesComeInOrderAndOnlyWhenTheyChange) {
  const Floor floor(plan_of(FeedQuality::lossy), one_of_each_kind());
  const Instant from = floor.plan().zone.at(LocalDate::of(2026, 3, 10), 5 * 60);
  const Instant to = from + Duration::hours(20);
  for (std::size_t m = 0; m < floor.machines().size(); ++m) {
    std::vector<Event> last = floor.standing(m, from);
    Instant at = from;
    for (const Event& event : told(floor, m, from, to, Detail::full)) {
      ASSERT_GE(event.arrives_at, at);
      ASSERT_FALSE(event.value == last[event.item].value) << print(event);
      last[event.item] = event;
      at = event.arrives_at;
    }
  }
}

TEST(Floor, TellsTwentyToAHundredObservationsAMinuteOfCutting) {
  const Floor floor(plan_of(FeedQuality::faithful), one_of_each_kind());
  const Instant from = floor.plan().zone.at(LocalDate::of(2026, 3, 17), 6 * 60);
  const Instant to = from + Duration::hours(16);
  for (std::size_t m = 0; m < floor.machines().size(); ++m) {
    const double minutes = floor.truth(m, from, to).cutting.as_hours() * 60;
    if (minutes < 60) continue;  // broken down
    const double rate = static_cast<double>(told(floor, m, from, to, Detail::full).size()) / minutes;
    EXPECT_GT(rate, 20) << floor.machines()[m].entry.key;
    EXPECT_LT(rate, 100) << floor.machines()[m].entry.key;
  }
}

TEST(Floor, OwnCountersRunOnWhileTheFeedIsAway) {
  const Floor floor(plan_of(FeedQuality::lossy), one_of_each_kind());
  const Instant from = floor.plan().zone.at(LocalDate::of(2026, 3, 9), 9 * 60);
  const Instant to = from + Duration::hours(24 * 10);
  int compared = 0;
  for (std::size_t m = 0; m < floor.machines().size(); ++m) {
    const Machine& machine = floor.machines()[m];
    if (machine.traits.timers == Timers::none) continue;
    const std::vector<Event> first = floor.standing(m, from);
    const std::vector<Event> last = floor.standing(m, to);
    const TrueUse truth = floor.truth(m, from, to);
    for (std::size_t item = 0; item < first.size(); ++item) {
      if (machine.tells[item].signal != Signal::timer) continue;
      if (counters::is_unknown(first[item].value) || counters::is_unknown(last[item].value)) continue;
      const Duration sums[] = {truth.powered, truth.automatic, truth.operating, truth.cutting, truth.spindle};
      const double step = machine.traits.timers == Timers::coarse ? 370 : 12;
      EXPECT_NEAR(last[item].value - first[item].value, sums[machine.tells[item].which].as_seconds(), step);
      ++compared;
    }
  }
  EXPECT_GE(compared, 5);
}

// The worked example of README.md, which also pins the numbers from one version and platform to the next.
TEST(Floor, TheWeekOfTheReadmeIsAsItSays) {
  FloorPlan plan;
  plan.seed = 7;
  plan.zone = *Zone::find("Europe/Berlin");
  plan.begins_on = LocalDate::of(2026, 3, 2);
  const Floor floor(plan, sample_entries());
  const Instant from = plan.zone.begin_of(LocalDate::of(2026, 3, 9));
  const Instant to = plan.zone.begin_of(LocalDate::of(2026, 3, 16));
  const TrueUse use = floor.truth(3, from, to);
  EXPECT_NEAR(use.powered.as_hours(), 168.00, 0.005);
  EXPECT_NEAR(use.operating.as_hours(), 48.81, 0.005);
  EXPECT_NEAR(use.spindle.as_hours(), 46.27, 0.005);
  EXPECT_NEAR(use.cutting.as_hours(), 45.50, 0.005);
  EXPECT_EQ(use.parts, 862);
  EXPECT_EQ(told(floor, 3, from, to, Detail::full).size(), 239'852U);
}

TEST(Floor, ThereIsNothingBeforeItsFirstDay) {
  const Floor floor(plan_of(FeedQuality::lossy), one_of_each_kind());
  const Instant before = floor.begin_of_first_day() - Duration::hours(30);
  EXPECT_TRUE(told(floor, 0, before, floor.begin_of_first_day(), Detail::full).empty());
  EXPECT_EQ(floor.truth(0, before, floor.begin_of_first_day()), TrueUse{});
  for (const Event& event : floor.standing(0, before)) EXPECT_TRUE(counters::is_unknown(event.value));
}

}  // namespace
}  // namespace hw::simulate
