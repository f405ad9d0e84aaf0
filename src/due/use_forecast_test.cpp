#include "src/due/use_forecast.h"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/due/life_test.h"

namespace hw::due {
namespace {

using testing::HasSubstr;

UseForecast forecast_of(const UseHistory& history, const ForecastOptions& options = {}) {
  auto forecast = UseForecast::prepare(history, options);
  EXPECT_TRUE(forecast) << forecast.error().message;
  return *forecast;
}

// A two-shift machine of 40 weeks with some scatter.
UseHistory two_shifts(std::uint64_t seed = 1) {
  numerics::Random random(seed);
  UseHistory history{monday, {}, {}};
  for (int ago = 280; ago > 0; --ago) {
    const LocalDate day = monday - ago;
    const bool works = iso_weekday(day) <= 5;
    history.days.push_back({day, works ? 14 * random.gamma(30) / 30 : 0});
  }
  return history;
}

// Monday to Friday from the first of the two days to the other.
int workdays_between(LocalDate from, LocalDate to) {
  int days = 0;
  for (LocalDate day = std::min(from, to); day < std::max(from, to); ++day) days += iso_weekday(day) <= 5 ? 1 : 0;
  return days;
}

constexpr std::array<double, 8> amounts = {0.5, 3, 14, 40, 141, 500, 2000, 20000};

TEST(UseForecast, ARegularMachineIsDueWhenArithmeticSays) {
  const UseForecast forecast = forecast_of(history_of(times(12, "8888800")));
  const DueQuantiles days = forecast.due_days(156);  // 40 h a week: in the fourth week, on its Friday
  EXPECT_EQ(days[3], monday + 25);
  EXPECT_LE(workdays_between(*days[1], *days[5]), 5);
}

TEST(UseForecast, Property_DaysRiseWithTheChanceAndWithWhatIsLeft) {
  const UseForecast forecast = forecast_of(two_shifts());
  DueQuantiles before = forecast.due_days(0.1);
  for (double left = 0.1; left < 5000; left *= 1.07) {
    const DueQuantiles days = forecast.due_days(left);
    for (std::size_t n = 0; n < days.size(); ++n) {
      ASSERT_TRUE(days[n]);
      EXPECT_GE(*days[n], *before[n]);
      if (n > 0) {
        EXPECT_GE(*days[n], *days[n - 1]);
      }
    }
    before = days;
  }
}

TEST(UseForecast, Property_TheUnitDoesNotMatter) {
  const UseHistory history = two_shifts();
  UseHistory seconds = history;
  for (UseDay& day : seconds.days) day.used *= 3600;
  for (const double left : amounts) {
    EXPECT_EQ(forecast_of(history).due_days(left), forecast_of(seconds).due_days(3600 * left)) << left;
  }
}

TEST(UseForecast, Property_MoreUseIsNeverLater) {
  const UseHistory history = two_shifts();
  UseHistory more = history;
  for (UseDay& day : more.days) day.used *= 1.2;
  for (const double left : amounts) {
    const auto days = forecast_of(history).due_days(left), sooner = forecast_of(more).due_days(left);
    for (std::size_t n = 0; n < days.size(); ++n) {
      if (days[n]) {
        EXPECT_LE(*sooner[n], *days[n]);
      }
    }
  }
}

TEST(UseForecast, Property_AClosedDayIsNeverEarlier) {
  const UseHistory history = two_shifts();
  UseHistory closed = history;
  for (int day = 3; day < 17; ++day) closed.closed.push_back(monday + day);
  for (const double left : amounts) {
    const auto days = forecast_of(history).due_days(left), later = forecast_of(closed).due_days(left);
    for (std::size_t n = 0; n < days.size(); ++n) {
      if (days[n] && later[n]) {
        EXPECT_GE(*later[n], *days[n]) << left << " at " << shown_chances[n];
      }
      if (later[n]) {
        EXPECT_FALSE(*later[n] >= monday + 3 && *later[n] < monday + 17);
      }
    }
  }
}

TEST(UseForecast, Property_ChanceAndDaysAreOneDistribution) {
  const UseForecast forecast = forecast_of(two_shifts());
  for (const double left : {10.0, 200.0, 1500.0}) {
    const DueQuantiles days = forecast.due_days(left);
    for (std::size_t n = 0; n < days.size(); ++n) {
      EXPECT_GE(forecast.chance_by(*days[n], left), shown_chances[n] - 1e-6);
      if (*days[n] > monday) {
        EXPECT_LT(forecast.chance_by(*days[n] - 1, left), shown_chances[n] + 1e-6);
      }
    }
    EXPECT_EQ(quantiles(forecast.distribution(left)), days);
  }
}

TEST(UseForecast, NothingLeftIsDueAtTheStart) {
  for (const double left : {0.0, -5.0}) {
    for (const auto& day : forecast_of(two_shifts()).due_days(left)) EXPECT_EQ(day, monday);
  }
}

TEST(UseForecast, ACounterThatNeverRoseIsNeverDue) {
  const UseForecast forecast = forecast_of(history_of("0000000"));
  EXPECT_TRUE(forecast.never_used());
  for (const auto& day : forecast.due_days(1)) EXPECT_FALSE(day);
  EXPECT_EQ(forecast.chance_by(monday + 1000, 1), 0);
  EXPECT_THAT(forecast.basis(), HasSubstr("never due by use"));
}

TEST(UseForecast, AShopThatIsClosedEveryDayIsNeverDue) {
  UseHistory history = history_of("8888800");
  for (int day = 0; day < horizon_days; ++day) history.closed.push_back(monday + day);
  for (const auto& day : forecast_of(history).due_days(1)) EXPECT_FALSE(day);
}

TEST(UseForecast, AGapOfAYearIsUnknownAndMakesItLessSure) {
  UseHistory gap = two_shifts();
  for (UseDay& day : gap.days) day.on = day.on - 364;
  const auto sure = forecast_of(two_shifts()).due_days(500), unsure = forecast_of(gap).due_days(500);
  EXPECT_GE(*unsure[5] - *unsure[1], *sure[5] - *sure[1]);
  EXPECT_NEAR(*unsure[3] - monday, *sure[3] - monday, 15);
}

TEST(UseForecast, FarAheadItIsLessSureThanTheLevelOfAShortHistoryIs) {
  // Nine weeks of the same: the level is known to a few percent, but not for how long it holds.
  const UseForecast forecast = forecast_of(history_of(times(9, "8788700")));
  const auto relative = [&](double left) {
    const DueQuantiles days = forecast.due_days(left);
    return static_cast<double>(*days[5] - *days[1]) / (*days[3] - monday);
  };
  EXPECT_LT(relative(200), 0.25);
  EXPECT_GT(relative(2000), 1.5 * relative(200));
  EXPECT_GT(relative(8000), relative(2000));
}

TEST(UseForecast, ALongerHistoryOfTheSameIsSurerFarAhead) {
  const auto shorter = forecast_of(history_of(times(9, "8788700"))).due_days(4000);
  const auto longer = forecast_of(history_of(times(150, "8788700"))).due_days(4000);
  EXPECT_LT(*longer[5] - *longer[1], *shorter[5] - *shorter[1]);
}

TEST(UseForecast, WhatIsKnownTogetherMakesNoDaysThatLookAlike) {
  // The same use once day by day, and once as what a counter had risen by whenever it was read.
  UseHistory daily = history_of(times(5, "99999998888888") + times(5, "99999991111111"));
  UseHistory together{daily.start, {}, {}};
  for (std::size_t n = 6; n < daily.days.size(); n += 7) {
    together.days.push_back({daily.days[n].on, 7 * daily.days[n].used, 7});
  }
  const auto alike = forecast_of(daily).due_days(1000), honest = forecast_of(together).due_days(1000);
  EXPECT_GE(*honest[5] - *honest[1], *alike[5] - *alike[1]);
}

TEST(UseForecast, AnAnnouncedShiftMovesTheDay) {
  const auto before = forecast_of(two_shifts()).due_days(2000);
  ForecastOptions options;
  options.changes = {ShiftChange{monday + 14, 0.5, {}}};
  const auto after = forecast_of(two_shifts(), options).due_days(2000);
  EXPECT_GT(*after[3] - *before[3], 80);
  EXPECT_EQ(forecast_of(two_shifts(), options).due_days(40)[3], forecast_of(two_shifts()).due_days(40)[3]);
}

TEST(UseForecast, LikeMachinesMakeANewOneSurer) {
  const UseHistory a_week = history_of("77877..");
  ForecastOptions lent;
  lent.lent = LentUse{5.3, 0.5, {1.4, 1.4, 1.4, 1.4, 1.4, 0, 0}};
  const auto alone = forecast_of(a_week).due_days(500), helped = forecast_of(a_week, lent).due_days(500);
  EXPECT_LT(*helped[5] - *helped[1], *alone[5] - *alone[1]);
  // Without any use of its own it goes by the others.
  EXPECT_TRUE(forecast_of(history_of("000"), lent).due_days(50)[3]);
}

TEST(UseForecast, AMachineThatStandsIsDueLaterAndLessSurely) {
  const std::string before = times(10,
                                   "8888800"
                                   "8888800"
                                   "8888800"
                                   "0000000"
                                   "0000000");
  const auto runs = forecast_of(history_of(before + "8888800")).due_days(24);
  const auto stands = forecast_of(history_of(before + "8888800" + "0000000")).due_days(24);
  EXPECT_GT(*stands[3], *runs[3]);
  EXPECT_GT(*stands[5] - *stands[1], *runs[5] - *runs[1]);
}

TEST(UseForecast, AgreesWithASimulationWhereUseIsRegular) {
  const UseForecast forecast = forecast_of(two_shifts());
  numerics::Random random(9);
  std::vector<int> days;
  for (int path = 0; path < 4000; ++path) {
    double used = 0;
    int day = -1;
    while (used < 300) used += iso_weekday(monday + ++day) <= 5 ? 14 * random.gamma(30) / 30 : 0;
    days.push_back(day);
  }
  std::sort(days.begin(), days.end());
  const auto said = forecast.due_days(300);
  // The simulation knows the level, the forecast has learned it and does not trust it for ever.
  EXPECT_LE(workdays_between(*said[1], monday + days[400]), 1);
  EXPECT_EQ(*said[3], monday + days[2000]);
  EXPECT_LE(workdays_between(*said[5], monday + days[3600]), 1);
}

TEST(UseForecast, TheWorkingAddsUp) {
  UseHistory history = two_shifts();
  history.days.pop_back();
  const UseWorking working = forecast_of(history).working();
  EXPECT_EQ(working.known_days, 279);
  EXPECT_EQ(working.unknown_days, 1);
  EXPECT_NEAR(working.mean_per_day, working.used / 279, 1e-9);
  ASSERT_EQ(working.ahead.size(), 4U);
  EXPECT_NEAR(working.ahead[1].per_day, 10, 0.4);
  EXPECT_EQ(working.weekdays.days[0], 40);
  EXPECT_EQ(working.idle_days, 0);
}

}  // namespace
}  // namespace hw::due
