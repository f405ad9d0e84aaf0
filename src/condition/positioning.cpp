#include "src/condition/positioning.h"

#include <algorithm>
#include <cmath>

#include "src/condition/series.h"

namespace hw::condition {
namespace {

Result<double> smallest_step(const std::vector<double>& target) {
  HW_TRY(check_series(target, "target", 2));
  double step = target[1] - target[0];
  for (std::size_t n = 1; n < target.size(); ++n) {
    if (!(target[n] > target[n - 1])) {
      return refuse(ErrorCode::bad_input, "target[{}]: {} does not lie beyond {}; targets rise", n, target[n],
                    target[n - 1]);
    }
    step = std::min(step, target[n] - target[n - 1]);
  }
  return step;
}

Result<void> check_direction(const PositioningRuns& runs, const std::vector<std::vector<double>>& positions,
                             std::string_view name, double step) {
  if (positions.size() != runs.target.size()) {
    return refuse(ErrorCode::bad_input, "{}: {} lists of positions for {} targets", name, positions.size(),
                  runs.target.size());
  }
  for (std::size_t n = 0; n < positions.size(); ++n) {
    HW_TRY(check_series(positions[n], fmt::format("{}[{}]", name, n), 2));
    if (positions[n].size() != runs.up[0].size()) {
      return refuse(ErrorCode::bad_input, "{}[{}]: {} runs, where up[0] has {}: each target needs as many", name, n,
                    positions[n].size(), runs.up[0].size());
    }
    for (std::size_t run = 0; run < positions[n].size(); ++run) {
      if (std::abs(positions[n][run] - runs.target[n]) <= step / 2) continue;
      return refuse(
          ErrorCode::bad_input,
          "{}[{}][{}]: {} is too far from its target {}; positions are needed in the unit of the targets, not "
          "deviations",
          name, n, run, positions[n][run], runs.target[n]);
    }
  }
  return {};
}

struct Direction {
  std::vector<double> mean, s;
};

Direction direction_of(const std::vector<double>& target, const std::vector<std::vector<double>>& positions) {
  Direction direction;
  for (std::size_t n = 0; n < target.size(); ++n) {
    std::vector<double> deviations;
    for (const double position : positions[n]) deviations.push_back(position - target[n]);
    direction.mean.push_back(mean_of(deviations));
    direction.s.push_back(standard_deviation(deviations));
  }
  return direction;
}

// max(mean + reach s) - min(mean - reach s), over one direction or both.
double range_of(std::initializer_list<const Direction*> directions, double reach) {
  double highest = -INFINITY, lowest = INFINITY;
  for (const Direction* direction : directions) {
    for (std::size_t n = 0; n < direction->mean.size(); ++n) {
      highest = std::max(highest, direction->mean[n] + reach * direction->s[n]);
      lowest = std::min(lowest, direction->mean[n] - reach * direction->s[n]);
    }
  }
  return highest - lowest;
}

double largest(const std::vector<double>& values) { return *std::max_element(values.begin(), values.end()); }

}  // namespace

Result<Positioning> evaluate_positioning(const PositioningRuns& runs) {
  HW_TAKE(step, smallest_step(runs.target));
  HW_TRY(check_direction(runs, runs.up, "up", step));
  HW_TRY(check_direction(runs, runs.down, "down", step));
  const Direction up = direction_of(runs.target, runs.up), down = direction_of(runs.target, runs.down);
  Positioning result{.x_up = up.mean, .x_down = down.mean, .s_up = up.s, .s_down = down.s};
  for (std::size_t n = 0; n < runs.target.size(); ++n) {
    const double reversal = up.mean[n] - down.mean[n];
    result.B_i.push_back(reversal);
    result.x_mean.push_back((up.mean[n] + down.mean[n]) / 2);
    result.R_i.push_back(std::max({2 * up.s[n] + 2 * down.s[n] + std::abs(reversal), 4 * up.s[n], 4 * down.s[n]}));
    result.B = std::max(result.B, std::abs(reversal));
  }
  result.B_mean = mean_of(result.B_i);
  result.R_up = 4 * largest(up.s);
  result.R_down = 4 * largest(down.s);
  result.R = largest(result.R_i);
  result.E_up = range_of({&up}, 0);
  result.E_down = range_of({&down}, 0);
  result.E = range_of({&up, &down}, 0);
  const auto [lowest, highest] = std::minmax_element(result.x_mean.begin(), result.x_mean.end());
  result.M = *highest - *lowest;
  result.A_up = range_of({&up}, 2);
  result.A_down = range_of({&down}, 2);
  result.A = range_of({&up, &down}, 2);
  return result;
}

}  // namespace hw::condition
