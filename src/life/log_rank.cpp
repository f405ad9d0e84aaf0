#include "src/life/log_rank.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "libs/numerics/gamma_tail.h"
#include "libs/numerics/random.h"

namespace hw::life {
namespace {

constexpr std::uint64_t deal_seed = 1966;
constexpr double rank_tolerance = 1e-10;  // of the greatest variance

// What happens at one age, by group.
struct GroupChange {
  std::vector<double> entered, failed, ended;
};

// A square matrix, and the differences that it is the variance of.
struct Differences {
  std::vector<double> from_expected;
  std::vector<double> variance;
  double& at(std::size_t row, std::size_t column) { return variance[row * from_expected.size() + column]; }
};

Result<std::map<double, GroupChange>> changes_of(std::span<const std::vector<Observed>> groups) {
  std::map<double, GroupChange> changes;
  const auto at = [&](double age) -> GroupChange& {
    const auto [there, is_new] = changes.try_emplace(age);
    if (is_new) there->second.entered = there->second.failed = there->second.ended = std::vector<double>(groups.size());
    return there->second;
  };
  for (std::size_t j = 0; j < groups.size(); ++j) {
    for (const Observed& life : groups[j]) {
      if (!is_exact(life) && !is_suspended(life)) {
        return refuse(ErrorCode::bad_input, Saying{"life-no-age"},
                      "no log-rank test: a life that failed between two looks has no known age");
      }
      at(life.entry).entered[j] += life.count;
      GroupChange& last = at(life.lower);
      (is_exact(life) ? last.failed : last.ended)[j] += life.count;
    }
  }
  return changes;
}

// Adds what one age with failures says. `at_risk` by group.
void add_age(LogRank& test, Differences& differences, const std::vector<double>& failed,
             const std::vector<double>& at_risk) {
  const double n = std::accumulate(at_risk.begin(), at_risk.end(), 0.0);
  const double d = std::accumulate(failed.begin(), failed.end(), 0.0);
  const double spread = n > 1 ? d * (n - d) / (n - 1) : 0;
  for (std::size_t j = 0; j < at_risk.size(); ++j) {
    const double share = at_risk[j] / n;
    test.groups[j].observed += failed[j];
    test.groups[j].expected += d * share;
    differences.from_expected[j] += failed[j] - d * share;
    if (share == 0) continue;
    for (std::size_t l = 0; l < at_risk.size(); ++l) {
      differences.at(j, l) += spread * share * ((j == l ? 1 : 0) - at_risk[l] / n);
    }
  }
}

// d' V^- d and the rank of V by elimination with the greatest variance left; d lies in V's range.
void set_statistic(LogRank& test, Differences left) {
  const std::size_t k = left.from_expected.size();
  std::vector<bool> is_done(k);
  double greatest = 0;
  for (std::size_t j = 0; j < k; ++j) greatest = std::max(greatest, left.at(j, j));
  for (std::size_t round = 0; round < k; ++round) {
    std::size_t pivot = k;
    for (std::size_t j = 0; j < k; ++j) {
      if (!is_done[j] && (pivot == k || left.at(j, j) > left.at(pivot, pivot))) pivot = j;
    }
    const double variance = left.at(pivot, pivot);
    if (!(variance > rank_tolerance * greatest)) return;
    is_done[pivot] = true;
    const double difference = left.from_expected[pivot];
    test.statistic += difference * difference / variance;
    ++test.degrees;
    for (std::size_t j = 0; j < k; ++j) {
      if (is_done[j]) continue;
      const double share = left.at(j, pivot) / variance;
      left.from_expected[j] -= share * difference;
      for (std::size_t l = 0; l < k; ++l) left.at(j, l) -= share * left.at(pivot, l);
    }
  }
}

// One life as the deals see it: the failures that were to be expected of it, and whether it failed.
struct DealtLife {
  double expected = 0;
  double failed = 0;
  bool operator<(const DealtLife& other) const {
    return std::tie(expected, failed) < std::tie(other.expected, other.failed);
  }
};

// The pooled cumulative hazard at an age, of its steps.
double hazard_at(const std::map<double, double>& steps, double age) {
  const auto after = steps.upper_bound(age);
  return after == steps.begin() ? 0 : std::prev(after)->second;
}

double distance(double observed, double expected) {
  return expected > 0 ? (observed - expected) * (observed - expected) / expected : 0;
}

// `sizes`: how many lives each group gets. Groups and lives in an order of their own, so that p does not depend on
// theirs.
double p_of_deals(std::vector<DealtLife> lives, std::vector<std::size_t> sizes, double seen) {
  std::sort(lives.begin(), lives.end());
  std::sort(sizes.begin(), sizes.end());
  numerics::Random random(deal_seed);
  int as_great = 0;
  for (int deal = 0; deal < deals; ++deal) {
    double sum = 0;
    std::size_t next = 0;
    for (const std::size_t size : sizes) {
      DealtLife group;
      for (std::size_t i = 0; i < size; ++i, ++next) {
        const int other = random.whole_between(static_cast<int>(next), static_cast<int>(lives.size()) - 1);
        std::swap(lives[next], lives[static_cast<std::size_t>(other)]);
        group.expected += lives[next].expected;
        group.failed += lives[next].failed;
      }
      sum += distance(group.failed, group.expected);
    }
    if (sum >= seen * (1 - 1e-9)) ++as_great;
  }
  return (1.0 + as_great) / (1.0 + deals);
}

double dealt_p(std::span<const std::vector<Observed>> groups, const LogRank& test,
               const std::map<double, double>& hazard) {
  std::vector<DealtLife> lives;
  std::vector<std::size_t> sizes;
  for (const auto& group : groups) {
    const std::size_t before = lives.size();
    for (const Observed& life : group) {
      const double expected = hazard_at(hazard, life.lower) - hazard_at(hazard, life.entry);
      lives.insert(lives.end(), static_cast<std::size_t>(life.count), {expected, is_exact(life) ? 1.0 : 0.0});
    }
    sizes.push_back(lives.size() - before);
  }
  double seen = 0;
  for (const GroupFailures& group : test.groups) seen += distance(group.observed, group.expected);
  return p_of_deals(std::move(lives), std::move(sizes), seen);
}

bool is_for_deals(std::span<const std::vector<Observed>> groups, const LogRank& test) {
  double lives = 0;
  for (const auto& group : groups) {
    for (const Observed& life : group) lives += life.count;
  }
  return lives <= dealt_most && std::any_of(test.groups.begin(), test.groups.end(), [](const GroupFailures& group) {
           return group.expected > 0 && group.expected < expected_min;
         });
}

}  // namespace

std::string_view word_of(PValueBy by) { return by == PValueBy::permutation ? "permutation" : "chi-squared"; }

Result<LogRank> compare_survival(std::span<const std::vector<Observed>> groups) {
  HW_TAKE(changes, changes_of(groups));
  const std::size_t k = groups.size();
  LogRank test{std::vector<GroupFailures>(k)};
  Differences differences{std::vector<double>(k), std::vector<double>(k * k)};
  std::vector<double> at_risk(k);
  std::map<double, double> hazard;
  double cumulative = 0;
  for (const auto& [age, change] : changes) {
    const double failed = std::accumulate(change.failed.begin(), change.failed.end(), 0.0);
    if (failed > 0) {
      add_age(test, differences, change.failed, at_risk);
      cumulative += failed / std::accumulate(at_risk.begin(), at_risk.end(), 0.0);
      hazard[age] = cumulative;
    }
    for (std::size_t j = 0; j < k; ++j) at_risk[j] += change.entered[j] - change.failed[j] - change.ended[j];
  }
  if (hazard.empty()) {
    return refuse(ErrorCode::bad_input, Saying{"life-none-failed"}, "no log-rank test: no part has failed");
  }
  set_statistic(test, std::move(differences));
  if (test.degrees == 0) {
    return refuse(ErrorCode::bad_input, Saying{"life-never-together"},
                  "no log-rank test: no two groups were at risk together when a part failed");
  }
  test.by = is_for_deals(groups, test) ? PValueBy::permutation : PValueBy::chi_squared;
  test.p = test.by == PValueBy::permutation ? dealt_p(groups, test, hazard)
                                            : numerics::chi_squared_above(test.statistic, test.degrees);
  return test;
}

}  // namespace hw::life
