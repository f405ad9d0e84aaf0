#include "src/due/use_curve.h"

#include <algorithm>

#include "libs/values/assert.h"

namespace hw::due {

UseCurve::UseCurve(std::vector<double> shares, std::vector<int> knots, const std::vector<UseByChance>& used)
    : shares_(std::move(shares)), knots_(std::move(knots)) {
  HW_ASSERT(shares_.size() == horizon_days && knots_.size() == used.size(), "a share per day, a row per knot");
  HW_ASSERT(knots_.front() == 1 && knots_.back() == horizon_days, "knots from the first day to the last");
  for (std::size_t n = 0; n < chances.size(); ++n) {
    double most = 0;
    used_[n].reserve(used.size());
    for (const UseByChance& row : used) used_[n].push_back(most = std::max(most, row[n]));
  }
}

std::optional<int> UseCurve::day_of(std::size_t n, double left) const {
  const std::vector<double>& used = used_[n];
  const auto above = std::lower_bound(used.begin(), used.end(), left);
  if (above == used.end()) return std::nullopt;
  const auto knot = static_cast<std::size_t>(above - used.begin());
  if (knot == 0) return 0;
  // The share that is needed lies between those of the two knots as `left` does between their uses.
  const double before = shares_[static_cast<std::size_t>(knots_[knot - 1] - 1)];
  const double after = shares_[static_cast<std::size_t>(knots_[knot] - 1)];
  const double part = (left - used[knot - 1]) / (used[knot] - used[knot - 1]);
  const double needed = std::min(after, before + part * (after - before));
  const auto begin = shares_.begin() + knots_[knot - 1];
  const auto day = std::lower_bound(begin, shares_.begin() + knots_[knot] - 1, needed);
  return static_cast<int>(day - shares_.begin());
}

double UseCurve::used_by(std::size_t n, int day) const {
  const auto above = std::lower_bound(knots_.begin(), knots_.end(), day + 1);
  const auto knot = static_cast<std::size_t>(above - knots_.begin());
  if (knots_[knot] == day + 1) return used_[n][knot];
  const double before = shares_[static_cast<std::size_t>(knots_[knot - 1] - 1)];
  const double after = shares_[static_cast<std::size_t>(knots_[knot] - 1)];
  if (after <= before) return used_[n][knot - 1];
  const double part = (shares_[static_cast<std::size_t>(day)] - before) / (after - before);
  return used_[n][knot - 1] + part * (used_[n][knot] - used_[n][knot - 1]);
}

double UseCurve::chance_by(int day, double left) const {
  HW_ASSERT(day >= 0 && day < horizon_days, "a day within ten years");
  if (left <= 0) return 1;
  double chance = 0, used = 0;
  for (std::size_t n = chances.size(); n-- > 0;) {
    const double here = used_by(n, day);
    if (here < left) {
      chance = chances[n];
      used = here;
      continue;
    }
    // B_p falls with p: `left` lies between this chance and the next greater one.
    if (n + 1 == chances.size()) return 1;
    return here > used ? chances[n] + (chance - chances[n]) * (here - left) / (here - used) : chances[n];
  }
  return 0;
}

}  // namespace hw::due
