#include "src/kits/stock_level.h"

#include <cmath>

#include <gtest/gtest.h>

#include "src/kits/lot_size.h"
#include "src/kits/newsvendor.h"
#include "src/kits/poisson.h"

namespace hw::kits {
namespace {

TEST(Poisson, MissingAndLeftKeepTheirDigitsFarFromTheMean) {
  for (const double mean : {0.3, 8.0, 250.0, 10000.0}) {
    for (const double s : {0.0, mean - 3 * std::sqrt(mean), mean, mean + 6 * std::sqrt(mean)}) {
      const double at = std::max(std::floor(s), 0.0);
      EXPECT_NEAR(poisson_missing(mean, at) - poisson_left(mean, at), mean - at, 1e-9 * mean);
      EXPECT_NEAR(poisson_missing(mean, at) - poisson_missing(mean, at + 1), poisson_above(mean, at), 1e-9);
    }
  }
}

TEST(Poisson, TheLevelIsTheSmallestThatIsEnough) {
  for (const double mean : {0.0, 0.02, 3.0, 99.5, 10000.0}) {
    for (const double wanted : {0.01, 0.5, 0.9, 0.999999, 1 - 1e-12}) {
      const double level = poisson_level(mean, wanted);
      EXPECT_LE(poisson_above(mean, level), 1 - wanted + 1e-15);
      EXPECT_GT(poisson_above(mean, level - 1), 1 - wanted);
    }
  }
}

TEST(BaseStock, Property_MoreIsNeverServedWorse) {
  double before = 0;
  for (double wanted = 0.5; wanted < 0.999; wanted += 0.01) {
    const BaseStock stock = base_stock(4.2, wanted);
    EXPECT_GE(stock.s_no_stockout, before);
    EXPECT_EQ(stock.s_fill_rate, stock.s_no_stockout + 1);
    before = stock.s_no_stockout;
  }
}

TEST(StockForUncertainRate, IsPoissonWhereTheRateIsWellKnown) {
  const UncertainStock stock = stock_for_uncertain_rate(4e9, 1e9, 1, 0.95);
  EXPECT_EQ(stock.s, stock.poisson_s);
  EXPECT_GE(stock_for_uncertain_rate(0.5, 100, 800, 0.95).s, 4 + 1) << "few failures seen: more than the mean";
  EXPECT_EQ(stock_for_uncertain_rate(0.5, 100, 0, 0.95).s, 0);
}

TEST(StockForKnownAges, EqualChancesAreBinomialAndNoPartNeedsNone) {
  const AgedStock stock = stock_for_known_ages({1, 1000}, std::vector<double>{0, 300, 5000}, 1000 * std::log(2.0), 0.9);
  for (const double chance : stock.fail_prob) EXPECT_NEAR(chance, 0.5, 1e-12);
  EXPECT_NEAR(stock.pmf[1], 0.375, 1e-12);
  EXPECT_EQ(stock.s, 3);
  EXPECT_EQ(stock_for_known_ages({1, 1000}, {}, 50, 0.9).s, 0);
}

TEST(ReorderPolicy, CostsLeastOfAllAround) {
  const ReorderTerms terms{3, 40, 25, 2, 1.5};
  const ReorderPolicy policy = best_reorder_policy(terms).value();
  const auto cost = [&](double reorder_at, double lot) {
    double sum = terms.order_cost * terms.rate;
    for (double y = reorder_at + 1; y <= reorder_at + lot; ++y) {
      sum +=
          y < 0 ? terms.missing * (3 - y) : terms.holding * poisson_left(3, y) + terms.missing * poisson_missing(3, y);
    }
    return sum / lot;
  };
  EXPECT_NEAR(cost(policy.reorder_at, policy.lot), policy.cost_rate, 1e-9);
  for (double reorder_at = -3; reorder_at < 12; ++reorder_at) {
    for (double lot = 1; lot < 20; ++lot) EXPECT_GE(cost(reorder_at, lot), policy.cost_rate - 1e-9);
  }
  EXPECT_NEAR(economic_quantity(25, 2, 3).quantity, 5.773502692, 1e-8);
  EXPECT_NEAR(newsvendor_normal({1, 1}, 10, 3).level, 10, 1e-12);
  EXPECT_FALSE(best_reorder_policy({1e-12, 1, 1e9, 1, 1}));
}

}  // namespace
}  // namespace hw::kits
