#include "src/condition/mann_kendall.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include "libs/numerics/normal_tail.h"
#include "src/condition/sen_slope.h"
#include "src/condition/series.h"

namespace hw::condition {
namespace {

constexpr std::size_t exact_points_max = 10;

int sign_of(double value) { return (value > 0) - (value < 0); }

// How many values are alike, group by group, groups of one among them.
std::vector<std::size_t> tie_groups(std::span<const double> values) {
  std::vector<double> ordered(values.begin(), values.end());
  std::sort(ordered.begin(), ordered.end());
  std::vector<std::size_t> groups;
  for (std::size_t n = 0; n < ordered.size(); ++n) {
    if (n > 0 && ordered[n] == ordered[n - 1]) {
      ++groups.back();
    } else {
      groups.push_back(1);
    }
  }
  return groups;
}

// The sums over tie groups that Kendall's variance needs.
struct TieSums {
  double pairs = 0;     // t (t - 1)
  double triples = 0;   // t (t - 1) (t - 2)
  double weighted = 0;  // t (t - 1) (2t + 5)
};

TieSums sums_of(const std::vector<std::size_t>& groups) {
  TieSums sums;
  for (const std::size_t group : groups) {
    const auto t = static_cast<double>(group);
    sums.pairs += t * (t - 1);
    sums.triples += t * (t - 1) * (t - 2);
    sums.weighted += t * (t - 1) * (2 * t + 5);
  }
  return sums;
}

double variance_of(double n, const TieSums& x, const TieSums& y) {
  const double untied = (n * (n - 1) * (2 * n + 5) - x.weighted - y.weighted) / 18;
  const double both = x.pairs * y.pairs / (2 * n * (n - 1));
  return n < 3 ? untied + both : untied + both + x.triples * y.triples / (9 * n * (n - 1) * (n - 2));
}

using Counts = std::vector<double>;  // how many orders have so many inversions

// The Gaussian binomial: orders of `a` values of one kind and `b` of another by their inversions. The larger kind
// stands last (nothing added) or first (an inversion with each of the smaller).
Counts orders_of_two(std::size_t a, std::size_t b) {
  if (a == 0 || b == 0) return {1};
  Counts counts(a * b + 1, 0);
  const Counts last = orders_of_two(a, b - 1), first = orders_of_two(a - 1, b);
  for (std::size_t n = 0; n < last.size(); ++n) counts[n] += last[n];
  for (std::size_t n = 0; n < first.size(); ++n) counts[n + b] += first[n];
  return counts;
}

Counts product(const Counts& a, const Counts& b) {
  Counts counts(a.size() + b.size() - 1, 0);
  for (std::size_t n = 0; n < a.size(); ++n) {
    for (std::size_t m = 0; m < b.size(); ++m) counts[n + m] += a[n] * b[m];
  }
  return counts;
}

// S = untied pairs - 2 inversions, and by symmetry P(S >= s) = P(S <= -s): as many orders have few inversions as many.
double exact_one_sided(long long S, const std::vector<std::size_t>& groups) {
  Counts counts = {1};
  std::size_t before = 0;
  for (const std::size_t group : groups) {
    counts = product(counts, orders_of_two(before, group));
    before += group;
  }
  const auto untied = static_cast<long long>(counts.size()) - 1;
  double at_least = 0;
  for (long long inversions = 0; untied - 2 * inversions >= std::abs(S); ++inversions) {
    at_least += counts[static_cast<std::size_t>(inversions)];
  }
  return at_least / std::accumulate(counts.begin(), counts.end(), 0.0);
}

}  // namespace

Result<MannKendall> mann_kendall(std::span<const double> x, std::span<const double> y) {
  HW_TRY(check_pairs(x, y, 2));
  if (x.size() > paired_points_max) {
    return refuse(ErrorCode::too_large, "at most {} points, not {}: every pair is looked at", paired_points_max,
                  x.size());
  }
  const std::vector<std::size_t> x_groups = tie_groups(x), y_groups = tie_groups(y);
  if (x_groups.size() < 2) return refuse(ErrorCode::bad_input, "x: all values are alike, so there is no trend");
  MannKendall kendall;
  for (std::size_t a = 0; a < x.size(); ++a) {
    for (std::size_t b = a + 1; b < x.size(); ++b) kendall.S += sign_of(x[b] - x[a]) * sign_of(y[b] - y[a]);
  }
  const auto n = static_cast<double>(x.size());
  const TieSums x_ties = sums_of(x_groups), y_ties = sums_of(y_groups);
  kendall.variance = variance_of(n, x_ties, y_ties);
  const auto S = static_cast<double>(kendall.S);
  if (kendall.variance > 0) kendall.z = (S - sign_of(S)) / std::sqrt(kendall.variance);
  kendall.p_two_sided = std::min(1.0, 2 * numerics::normal_below(-std::abs(kendall.z)));
  const double untied = std::sqrt((n * (n - 1) - x_ties.pairs) * (n * (n - 1) - y_ties.pairs)) / 2;
  kendall.tau_b = untied > 0 ? S / untied : 0;
  if (x.size() <= exact_points_max && x_groups.size() == x.size()) {
    kendall.p_exact_one_sided = exact_one_sided(kendall.S, y_groups);
  }
  return kendall;
}

}  // namespace hw::condition
