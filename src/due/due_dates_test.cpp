#include "src/due/due_dates.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/catalogue/plant_calendar.h"
#include "src/due/life_test.h"
#include "src/due/task_state.h"

namespace hw::due {
namespace {

const DueDistribution early = {{monday + 1, 0.2}, {monday + 5, 0.8}, {monday + 9, 0.95}};
const DueDistribution late = {{monday + 3, 0.5}, {monday + 20, 1}};

TEST(DueDates, AQuantileIsTheFirstDayThatReachesItsChance) {
  EXPECT_EQ(quantile(early, 0.2), monday + 1);
  EXPECT_EQ(quantile(early, 0.21), monday + 5);
  EXPECT_EQ(quantile(early, 0.96), std::nullopt);
  EXPECT_EQ(chance_by(early, monday), 0);
  EXPECT_EQ(chance_by(early, monday + 6), 0.8);
}

TEST(DueDates, AlikeTriggersFallDueByTheEarliestQuantile) {
  const std::vector<DueDistribution> both = {early, late};
  const DueDistribution first = first_of(both, Together::alike);
  EXPECT_EQ(quantile(first, 0.1), monday + 1);
  EXPECT_EQ(quantile(first, 0.5), monday + 3);
  EXPECT_EQ(quantile(first, 0.95), monday + 9);
  EXPECT_EQ(quantile(first, 1), monday + 20);
}

TEST(DueDates, IndependentTriggersFallDueEarlierThanEach) {
  const std::vector<DueDistribution> both = {early, late};
  const DueDistribution first = first_of(both, Together::independent);
  EXPECT_NEAR(chance_by(first, monday + 3), 1 - 0.8 * 0.5, 1e-12);
  EXPECT_NEAR(chance_by(first, monday + 5), 1 - 0.2 * 0.5, 1e-12);
}

TEST(DueDates, ACalendarDateCutsOffWhatIsLater) {
  const std::vector<DueDistribution> both = {early, on_calendar(monday + 6)};
  for (const Together together : {Together::alike, Together::independent}) {
    const DueQuantiles days = quantiles(first_of(both, together));
    EXPECT_EQ(days[0], monday + 1);
    EXPECT_EQ(days[6], monday + 6);
  }
  EXPECT_TRUE(first_of({}, Together::alike).empty());
}

DueDistribution any_distribution(numerics::Random& random) {
  DueDistribution due;
  LocalDate day = monday;
  for (double chance = random.uniform(); chance < 1; chance += random.between(0.01, 0.4)) {
    day = day + random.whole_between(1, 30);
    due.push_back({day, chance});
  }
  return due;
}

TEST(DueDates, Property_TheFirstOfSeveralIsNeverLaterThanEach) {
  numerics::Random random(41);
  const LocalDate never = monday + 100'000;
  for (int n = 0; n < 300; ++n) {
    std::vector<DueDistribution> dues(static_cast<std::size_t>(random.whole_between(1, 4)));
    for (DueDistribution& due : dues) due = any_distribution(random);
    if (random.chance(0.3)) dues.push_back(on_calendar(monday + random.whole_between(0, 200)));
    const DueDistribution alike = first_of(dues, Together::alike), apart = first_of(dues, Together::independent);
    for (const double chance : shown_chances) {
      const LocalDate first = quantile(alike, chance).value_or(never);
      EXPECT_LE(quantile(apart, chance).value_or(never), first);
      LocalDate earliest = never;
      for (const DueDistribution& due : dues) earliest = std::min(earliest, quantile(due, chance).value_or(never));
      EXPECT_EQ(first, earliest);
    }
  }
}

LocalDate calendar_due(const char* zone, const char* done_at, catalogue::CalendarInterval interval) {
  catalogue::PlantCalendar plant;
  plant.zone = *Zone::find(zone);
  catalogue::CalendarTrigger trigger;
  trigger.every = interval;
  const Instant done = *parse_instant(done_at);
  return standing(trigger, plant, done, done).due_on;
}

using Unit = catalogue::CalendarInterval::Unit;

// The local day counts, not the UTC day: half past ten in the evening UTC is the next day at UTC+13.
TEST(DueDates, CalendarTriggersAreExactLocalDates) {
  EXPECT_EQ(calendar_due("Pacific/Tongatapu", "2026-01-30T22:30:00Z", {1, Unit::month}), LocalDate::of(2026, 2, 28));
  EXPECT_EQ(calendar_due("UTC", "2026-01-30T22:30:00Z", {1, Unit::month}), LocalDate::of(2026, 2, 28));
  EXPECT_EQ(calendar_due("Pacific/Tongatapu", "2026-03-10T22:30:00Z", {2, Unit::week}), LocalDate::of(2026, 3, 25));
  EXPECT_EQ(calendar_due("Europe/Berlin", "2026-03-28T23:30:00Z", {1, Unit::week}), LocalDate::of(2026, 4, 5));
  EXPECT_EQ(calendar_due("Europe/Berlin", "2026-10-24T22:30:00Z", {1, Unit::week}), LocalDate::of(2026, 11, 1));
  EXPECT_EQ(calendar_due("UTC", "2028-02-29T12:00:00Z", {1, Unit::year}), LocalDate::of(2029, 2, 28));
  EXPECT_EQ(calendar_due("UTC", "2027-02-28T12:00:00Z", {12, Unit::month}), LocalDate::of(2028, 2, 28));
}

}  // namespace
}  // namespace hw::due
