// Forecasts are held against what came after, over invented machine lives of ten kinds. What is asked of them:
//   over all       outcomes before the p-quantile's day at most p + 0.03, up to it at least p - 0.03, for all seven p;
//                  pinball loss at most 0.85 of the best plain forecast's
//   in each kind   0.12 instead of 0.03, and at most 1.05 of the best plain forecast's
// HW_CALIBRATION_CASES and HW_CALIBRATION_SEED ask for other numbers of cases and other lives.

#include <algorithm>
#include <cstdlib>

#include <gtest/gtest.h>

#include "src/due/plain_forecasts.h"
#include "src/due/use_forecast.h"
#include "tests/due/use_regimes.h"

namespace hw::tests {
namespace {

using due::shown_chances;

double loss_of(int day, int outcome) {
  double loss = 0;
  for (const double p : shown_chances) loss += outcome >= day ? p * (outcome - day) : (1 - p) * (day - outcome);
  return loss / shown_chances.size();
}

struct Tally {
  int count = 0;
  std::array<int, 7> before{}, up_to{};
  double loss = 0;
  std::array<double, due::plain_forecasts.size()> plain_loss{};

  void add(const RegimeCase& one) {
    const auto forecast = due::UseForecast::prepare(one.history);
    ASSERT_TRUE(forecast) << forecast.error().message;
    const auto past = due::arrange(one.history);
    const auto ahead = [&](const std::optional<LocalDate>& day) {
      return day ? *day - one.history.start : due::horizon_days;
    };
    const due::DueQuantiles days = forecast->due_days(one.left);
    for (std::size_t n = 0; n < days.size(); ++n) {
      const int day = ahead(days[n]);
      before[n] += one.outcome_days < day ? 1 : 0;
      up_to[n] += one.outcome_days <= day ? 1 : 0;
      const double p = shown_chances[n];
      loss += (one.outcome_days >= day ? p * (one.outcome_days - day) : (1 - p) * (day - one.outcome_days)) / 7;
    }
    for (std::size_t n = 0; n < plain_loss.size(); ++n) {
      plain_loss[n] +=
          loss_of(ahead(due::plain_due_day(due::plain_forecasts[n], *past, one.history, one.left)), one.outcome_days);
    }
    ++count;
  }

  void add(const Tally& other) {
    count += other.count;
    loss += other.loss;
    for (std::size_t n = 0; n < 7; ++n) before[n] += other.before[n], up_to[n] += other.up_to[n];
    for (std::size_t n = 0; n < plain_loss.size(); ++n) plain_loss[n] += other.plain_loss[n];
  }

  double share_of_best_plain() const { return loss / *std::min_element(plain_loss.begin(), plain_loss.end()); }

  std::string text() const {
    std::string line = fmt::format("{:5}", count);
    for (std::size_t n = 0; n < 7; ++n) {
      line +=
          fmt::format(" {:.3f}-{:.3f}", before[n] / static_cast<double>(count), up_to[n] / static_cast<double>(count));
    }
    return line + fmt::format("  loss {:.2f} d, {:.3f} of the best plain", loss / count, share_of_best_plain());
  }

  void expect(double off_max, double loss_max, std::string_view name) const {
    for (std::size_t n = 0; n < 7; ++n) {
      EXPECT_LE(before[n] / static_cast<double>(count), shown_chances[n] + off_max)
          << name << " at " << shown_chances[n];
      EXPECT_GE(up_to[n] / static_cast<double>(count), shown_chances[n] - off_max)
          << name << " at " << shown_chances[n];
    }
    EXPECT_LE(share_of_best_plain(), loss_max) << name;
  }
};

int number_from(const char* name, int otherwise) {
  const char* text = std::getenv(name);
  return text != nullptr ? std::atoi(text) : otherwise;
}

TEST(Calibration, HoldsInEveryKindOfLifeAndOverAll) {
  const int cases = number_from("HW_CALIBRATION_CASES", 200);
  const auto seed = static_cast<std::uint64_t>(number_from("HW_CALIBRATION_SEED", 20261125));
  Tally all;
  for (const Regime regime : regimes) {
    Tally tally;
    for (int n = 0; n < cases; ++n) tally.add(make_case(regime, seed + static_cast<std::uint64_t>(n)));
    fmt::print("{:<13}{}\n", word_of(regime), tally.text());
    tally.expect(0.12, 1.05, word_of(regime));
    all.add(tally);
  }
  fmt::print("{:<13}{}\n", "all", all.text());
  all.expect(0.03, 0.85, "all");
}

}  // namespace
}  // namespace hw::tests
