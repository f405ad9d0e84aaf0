// How often the tests of difference speak at 5 % where nothing differs, in small samples; prints the table of
// docs/methods/life.md.

#include <cstdlib>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/life/difference.h"
#include "src/life/weibull.h"

namespace hw::life {
namespace {

constexpr Weibull truth{2, 1};

struct Sample {
  int groups = 2, lives = 5;
  double watched_until = never;
};

int samples() {
  const char* asked = std::getenv("HW_SAMPLES");
  return asked ? std::atoi(asked) : 300;
}

std::vector<std::vector<Observed>> draw(numerics::Random& random, const Sample& sample) {
  std::vector<std::vector<Observed>> groups(static_cast<std::size_t>(sample.groups));
  for (auto& group : groups) {
    for (int n = 0; n < sample.lives; ++n) {
      const double age = quantile(truth, random.uniform());
      group.push_back(age < sample.watched_until ? Observed{age, age} : Observed{sample.watched_until});
    }
  }
  return groups;
}

TEST(DifferenceSize, EqualGroupsAreSeldomCalledDifferent) {
  const double half = quantile(truth, 0.5);
  fmt::print("| groups | lives each | watched | log-rank | Weibull | either, as judged |\n");
  for (const Sample& sample :
       {Sample{2, 4}, Sample{2, 5}, Sample{2, 8}, Sample{2, 10}, Sample{2, 20}, Sample{2, 16, half},
        Sample{2, 20, half}, Sample{5, 4}, Sample{5, 5}, Sample{5, 8}, Sample{5, 10}, Sample{5, 20},
        Sample{5, 20, half}, Sample{20, 4}, Sample{20, 5}, Sample{20, 10}}) {
    numerics::Random random(20);
    int ranks = 0, rank_alarms = 0, fits = 0, fit_alarms = 0, alarms = 0;
    for (int n = 0; n < samples(); ++n) {
      const Difference found = judge_difference(draw(random, sample));
      ranks += found.log_rank.has_value();
      rank_alarms += found.log_rank && found.log_rank->p < 0.05;
      fits += found.weibull.has_value();
      fit_alarms += found.weibull && found.weibull->p < 0.05;
      alarms += found.verdict == LikenessVerdict::differ;
    }
    const auto share = [](int part, int all) { return all == 0 ? "-" : fmt::format("{:.1f} %", 100.0 * part / all); };
    fmt::print("| {} | {} | {} | {} | {} | {} |\n", sample.groups, sample.lives,
               sample.watched_until == never ? "complete" : "half", share(rank_alarms, ranks), share(fit_alarms, fits),
               share(alarms, samples()));
    EXPECT_LT(alarms, 0.11 * samples());
  }
}

}  // namespace
}  // namespace hw::life
