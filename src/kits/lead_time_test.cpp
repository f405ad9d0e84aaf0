#include "src/kits/lead_time.h"

#include <cmath>
#include <numeric>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"

namespace hw::kits {
namespace {

double width(const LeadTime& lead) { return lead.quantile(0.95) - lead.quantile(0.5); }

TEST(LeadTime, BeginsAtWhatIsQuotedAndIsMovedByDeliveries) {
  const LeadTime quoted(10);
  EXPECT_EQ(quoted.quantile(0.5), 10);
  EXPECT_GE(quoted.quantile(0.95), 14) << "nothing is known of them yet: wide";
  const LeadTime slow(10, std::vector<double>{15, 14, 16, 15, 15, 14});
  EXPECT_GE(slow.quantile(0.5), 13);
  EXPECT_LE(slow.quantile(0.5), 15);
  const LeadTime known(10, std::vector<double>(60, 10));
  EXPECT_LT(width(known), width(quoted));
  EXPECT_EQ(quoted.working().saying.numbers.at("count"), 0);
  EXPECT_NE(slow.working().text.find("6 deliveries"), std::string::npos);
}

TEST(LeadTime, ItsDaysSumUpToOne) {
  for (const double days : {0.5, 1.0, 4.0, 90.0}) {
    const LeadTime lead(days, std::vector<double>{0, days, 3 * days});
    EXPECT_NEAR(std::accumulate(lead.by_day().begin(), lead.by_day().end(), 0.0), 1, 1e-12);
    EXPECT_EQ(lead.by_day()[0], 0);
    EXPECT_GT(lead.mean_days(), 0);
  }
}

TEST(LeadTime, AnOrderThatIsLateIsNotThereYet) {
  const LeadTime lead(10, std::vector<double>{9, 10, 11, 10});
  EXPECT_EQ(lead.within_after(13, 0), 0);
  EXPECT_LT(lead.within_after(13, 1), 1);
  EXPECT_NEAR(lead.within_after(0, 10), lead.within(10), 1e-12);
  const double share = (lead.within(15) - lead.within(13)) / (1 - lead.within(13));
  EXPECT_NEAR(lead.within_after(13, 2), share, 1e-9);
}

// What it says holds as often as it says, also after few deliveries of suppliers as it believes them to be.
TEST(LeadTime, ItsQuantilesHoldAsOftenAsTheySay) {
  numerics::Random random(11);
  int within = 0;
  constexpr int drawn = 4000;
  for (int n = 0; n < drawn; ++n) {
    const double variance = 3 * 0.25 * 0.25 / random.gamma(3);
    const double middle = std::log(20.0) + std::sqrt(variance / 2) * random.normal();
    const auto days = [&] {
      return std::max(std::round(std::exp(middle + std::sqrt(variance) * random.normal())), 1.0);
    };
    const LeadTime lead(20, std::vector<double>{days(), days(), days()});
    within += days() <= lead.quantile(0.9) ? 1 : 0;
  }
  EXPECT_NEAR(double(within) / drawn, 0.9, 0.02);
}

}  // namespace
}  // namespace hw::kits
