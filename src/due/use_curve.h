#pragma once
// The use of the days ahead as a distribution, kept so that a due day is two searches away.
//
// At some days (each of the first week, then ever fewer) and for each chance p the table holds the use B_p that is
// reached by the end of that day with chance p; between two of these days B_p grows with the shares of the days. Since
// use is never negative,
//   P(due by day t) = P(use by t >= left) >= p   if and only if   left <= B_p(t).

#include <array>
#include <optional>
#include <vector>

#include "src/due/future_days.h"
#include "src/due/rate_quantiles.h"

namespace hw::due {

using UseByChance = std::array<double, chances.size()>;

class UseCurve {
 public:
  // `knots`: days ahead, the first 1, rising, the last horizon_days; `used[n]`: B_p by the end of day knots[n], in
  // order of `chances`. Where B_p falls from knot to knot it is held; `shares` never fall.
  UseCurve(std::vector<double> shares, std::vector<int> knots, const std::vector<UseByChance>& used);

  // The first day, counted from 0 at the start, by whose end the use has reached `left` (above 0) with the chance
  // chances[n]; nothing where that lies beyond ten years.
  std::optional<int> day_of(std::size_t n, double left) const;
  // P(use by the end of day `day` (0 to horizon_days - 1) >= left), between the chances kept; 0 below the least of
  // them, 1 above the greatest.
  double chance_by(int day, double left) const;

  const std::vector<double>& shares() const { return shares_; }

 private:
  double used_by(std::size_t n, int day) const;

  std::vector<double> shares_;
  std::vector<int> knots_;
  std::array<std::vector<double>, chances.size()> used_;  // per chance, one per knot, never falling
};

}  // namespace hw::due
