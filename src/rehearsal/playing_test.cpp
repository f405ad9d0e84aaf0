#include "src/rehearsal/playing.h"

#include <cmath>

#include <gtest/gtest.h>

#include "src/life/age_replacement.h"
#include "src/life/renewals.h"
#include "src/rehearsal/change.h"
#include "src/rehearsal/spread.h"
#include "src/rehearsal/years_test.h"

namespace hw::rehearsal {
namespace {

constexpr double errors_off_max = 4;  // standard errors: by chance once in 16,000

void expect_within(const Spread& spread, double theory, const char* what) {
  EXPECT_GT(spread.se, 0) << what;
  EXPECT_LT(std::abs(spread.mean - theory), errors_off_max * spread.se)
      << what << ": " << spread.mean << " +- " << spread.se << " instead of " << theory;
}

ShopYear worn_shop(const life::Weibull& life, double interval, int days) {
  ShopYear shop = even_shop({with_part(task_every("seal", interval))}, days);
  shop.lives = {{"seal", {{life, 1}}}};
  return shop;
}

constexpr double for_ever = 1e11;

// Between two horizons, both far beyond the first parts: what is spent there is the long-run rate, without what the
// beginning adds.
TEST(Playing, CostAndFailuresAreThoseOfAgeReplacementInTheLongRun) {
  for (const double shape : {1.6, 2.5, 4.0}) {
    const life::Weibull life{shape, 100};
    const life::ReplacementCosts costs{180, 1450};
    const double interval = *life::stationary_age(life, costs);
    ShopYear shop = worn_shop(life, interval, 200);
    shop.machines[0].tasks[0].planned_cost = costs.planned;
    shop.machines[0].tasks[0].part->failed_cost = costs.failed;
    const auto until = play_years(shop, 4000);
    shop.days = 100;
    const auto from = play_years(shop, 4000);
    const OutcomeSpread between = difference_of(from, until).spread;
    expect_within(between.cost, 1000 * life::age_cost_rate(life, costs, interval), "cost of 1,000 h");
    const double failed = 1 - life::reliability(life, interval);
    expect_within(between.failures, 1000 * failed / life::mean_life_until(life, interval), "failures in 1,000 h");
    expect_within(between.tasks_done, 1000 * (1 - failed) / life::mean_life_until(life, interval), "replacements");
  }
}

TEST(Playing, FailuresAreThoseOfTheRenewalFunctionWhereNothingIsReplacedBefore) {
  for (const double shape : {0.8, 1.0, 2.3, 6.0}) {
    const life::Weibull life{shape, 150};
    const auto years = play_years(worn_shop(life, for_ever, 40), 10'000);
    expect_within(spread_of(years).failures, life::renewals_by(life, 400).expected, "failures");
  }
}

TEST(Playing, APartThatHasAnAgeFailsAsOneOfThatAge) {
  ShopYear shop = worn_shop({3, 500}, for_ever, 10);
  shop.machines[0].tasks[0].part->age = 400;
  double failed = 0;
  const auto years = play_years(shop, 20'000);
  for (const Outcome& year : years) failed += year.failures > 0 ? 1.0 : 0.0;
  const double chance = 1 - life::reliability({3, 500}, 500) / life::reliability({3, 500}, 400);
  const auto count = static_cast<double>(years.size());
  EXPECT_NEAR(failed / count, chance, errors_off_max * std::sqrt(chance * (1 - chance) / count));
}

// What is believed of a life is true of every machine of the year, so that its spread does not average out.
TEST(Playing, ABelievedLifeIsTrueOfAllMachinesOfAYear) {
  const life::Weibull often{1, 50}, seldom{1, 5000};
  ShopYear shop = worn_shop(often, for_ever, 100);
  shop.lives[0].believed = {{often, 0.25}, {seldom, 0.75}};
  for (int n = 2; n <= 20; ++n) {
    shop.machines.push_back(shop.machines[0]);
    shop.machines.back().key = "m" + std::to_string(n);
  }
  const auto years = play_years(shop, 4000);
  const OutcomeSpread spread = spread_of(years);
  expect_within(spread.failures, 20 * (0.25 * 20 + 0.75 * 0.2), "failures");
  double many = 0;
  for (const Outcome& year : years) {
    EXPECT_TRUE(year.failures < 40 || year.failures > 300) << year.failures;
    many += year.failures > 300 ? 1.0 : 0.0;
  }
  EXPECT_NEAR(many / 4000, 0.25, errors_off_max * std::sqrt(0.25 * 0.75 / 4000));
}

TEST(Playing, Property_EveryHourUsedIsInTheAgeOfAPart) {
  for (std::uint64_t year = 0; year < 200; ++year) {
    ShopYear shop = worn_shop({1.3, 90}, 120, 365);
    shop.machines[0].tasks[0].part->age = 35;
    shop.machines[0].tasks[0].intervals[0].used = 35;
    const auto told = tell_year(shop, {7, year});
    ASSERT_GT(told.size(), 20U);
    double ages = 0;
    for (const Happening& one : told) {
      ages += one.age;
      EXPECT_NEAR(ages, 35 + 10 * one.at_day, 1e-6);
      EXPECT_LE(one.age, 120 + 1e-6);
    }
  }
}

ShopYear mixed_shop() {
  ShopYear shop = worn_shop({2, 300}, 250, 365);
  shop.isolated = {0.75, 60};
  shop.labour_per_hour = 60;
  shop.closed = {10, 11, 12};
  Machine& first = shop.machines[0];
  first.use[0].scatter = 0.4;
  first.standing_per_hour = 80;
  first.tasks[0].part->failed_cost = 900;
  first.tasks.push_back(task_every("oil", 90, 30));
  first.tasks.push_back(with_part(task_every("belt", 400, 50)));
  Machine second = first;
  second.key = "m2";
  second.use.clear();
  for (int weekday = 1; weekday <= 7; ++weekday) {
    for (int n = 0; n < 5; ++n) second.past.push_back({weekday, {2.0 * n}});
  }
  shop.machines.push_back(second);
  return shop;
}

TEST(Playing, TheSameSeedIsTheSameAnswerInWhateverOrderItIsPlayed) {
  const ShopYear shop = mixed_shop();
  const auto at_once = play_years(shop, 40, 99);
  const Playing playing(shop);
  YearDesk one(playing), other(playing);
  std::vector<Outcome> in_parts(40);
  playing.play({99, 25}, std::span(in_parts).subspan(25), one);
  playing.play({99, 0}, std::span(in_parts).first(25), other);
  for (std::size_t n = 0; n < 40; ++n) EXPECT_TRUE(same(at_once[n], in_parts[n])) << n;
  EXPECT_FALSE(same(at_once[0], at_once[1]));
  EXPECT_FALSE(same(at_once[0], play_years(shop, 1, 100)[0]));
}

TEST(Playing, AChangeThatChangesNothingDiffersByNothing) {
  const ShopYear shop = mixed_shop();
  const std::vector<Change> none{{"lathe", "seal", "operating", 250}};
  const auto again = changed(shop, none);
  ASSERT_TRUE(again);
  const Difference difference = difference_of(play_years(shop, 50), play_years(*again, 50));
  EXPECT_EQ(difference.same_cost, 1);
  EXPECT_EQ(difference.cheaper, 0);
  EXPECT_EQ(difference.spread.cost.mean, 0);
  EXPECT_EQ(difference.spread.cost.se, 0);
  EXPECT_EQ(difference.spread.hands_on_hours.q95, 0);
}

// What is the same in both plans must not make the difference noisy: two seeds differ by twice the variance instead.
TEST(Playing, TheSameLuckMakesADifferenceSharperThanTwoSeeds) {
  const ShopYear shop = mixed_shop();
  const std::vector<Change> later{{"lathe", "seal", "operating", 280}};
  const auto after = changed(shop, later);
  ASSERT_TRUE(after);
  const auto present = play_years(shop, 500);
  const double alike = difference_of(present, play_years(*after, 500)).spread.cost.se;
  const double apart = difference_of(present, play_years(*after, 500, 2)).spread.cost.se;
  EXPECT_LT(alike, 0.8 * apart);
}

TEST(Playing, Property_LongerLivesFailLessAndLongerIntervalsTakeLessWork) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    double failures = 1e9, done = 1e9;
    for (const double longer : {1.0, 1.2, 1.7, 3.0}) {
      const Outcome worn = play_years(worn_shop({1.7, 200 * longer}, for_ever, 365), 1, seed)[0];
      EXPECT_LE(worn.failures, failures);
      failures = worn.failures;
      const Outcome plain = play_years(even_shop({task_every("oil", 70 * longer)}), 1, seed)[0];
      EXPECT_LT(plain.tasks_done, done);
      done = plain.tasks_done;
    }
  }
}

}  // namespace
}  // namespace hw::rehearsal
