#include "src/due/plain_forecasts.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/due/life_test.h"

namespace hw::due {
namespace {

std::optional<LocalDate> plain(PlainForecast forecast, const UseHistory& history, double left) {
  return plain_due_day(forecast, *arrange(history), history, left);
}

TEST(PlainForecasts, EachGoesByItsOwnDays) {
  const UseHistory history = history_of(times(52, "2222222") + times(4, "4444444") + "88888.." + "88888..");
  EXPECT_EQ(plain(PlainForecast::last_week, history, 40), monday + 4);
  EXPECT_EQ(plain(PlainForecast::last_week, history, 56), monday + 6);  // unknown days as the mean of the known ones
  EXPECT_EQ(plain(PlainForecast::mean_30_days, history, 54), monday + 9);
  EXPECT_EQ(plain(PlainForecast::mean_365_days, history, 40), monday + 17);
}

TEST(PlainForecasts, WithoutAKnownDayOfItsOwnEachGoesByAllKnownDays) {
  const UseHistory history = history_of(times(10, "4444444") + times(20, "......."));
  EXPECT_EQ(plain(PlainForecast::last_week, history, 40), monday + 9);
  EXPECT_EQ(plain(PlainForecast::mean_30_days, history, 40), monday + 9);
}

TEST(PlainForecasts, ClosedDaysBringNothing) {
  UseHistory history = history_of("8888888");
  history.closed = {monday, monday + 1};
  EXPECT_EQ(plain(PlainForecast::mean_365_days, history, 8), monday + 2);
}

TEST(PlainForecasts, WithoutUseThereIsNoDay) {
  EXPECT_EQ(plain(PlainForecast::mean_30_days, history_of("000"), 8), std::nullopt);
}

// The same draws, one path at a time.
TEST(PlainForecasts, TheBootstrapIsWhatASeededSimulationFinds) {
  numerics::Random random(11);
  UseHistory history{monday, {}, {monday + 9}};
  std::array<std::vector<double>, 7> uses;
  for (int ago = 70; ago > 0; --ago) {
    const LocalDate day = monday - ago;
    const double used = iso_weekday(day) <= 5 && random.chance(0.9) ? 8 * random.uniform() : 0;
    history.days.push_back({day, used});
    uses[static_cast<std::size_t>(iso_weekday(day) - 1)].push_back(used);
  }
  std::vector<int> days;
  for (int path = 0; path < 20'000; ++path) {
    double used = 0;
    int day = -1;
    while (used < 60) {
      ++day;
      const auto& draws = uses[static_cast<std::size_t>(iso_weekday(monday + day) - 1)];
      if (day != 9) used += draws[static_cast<std::size_t>(random.uniform() * static_cast<double>(draws.size()))];
    }
    days.push_back(day);
  }
  const DueDistribution due = weekday_bootstrap(*arrange(history), history, 60);
  for (int day = 10; day < 35; day += 4) {
    const auto reached = std::count_if(days.begin(), days.end(), [&](int one) { return one <= day; });
    EXPECT_NEAR(chance_by(due, monday + day), static_cast<double>(reached) / 20'000, 0.015) << day;
  }
}

}  // namespace
}  // namespace hw::due
