#include "src/condition/circular_path.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "src/condition/series.h"

namespace hw::condition {
namespace {

constexpr std::size_t circle_points_min = 8;

struct PathPoint {
  double x, y;
};
using Path = std::vector<PathPoint>;

Path path_of(double radius, const std::vector<double>& deviations) {
  Path path;
  for (std::size_t n = 0; n < deviations.size(); ++n) {
    const double angle = 2 * std::numbers::pi * static_cast<double>(n) / static_cast<double>(deviations.size());
    path.push_back({(radius + deviations[n]) * std::cos(angle), (radius + deviations[n]) * std::sin(angle)});
  }
  return path;
}

double ring_width(const Path& path, double x, double y) {
  double smallest = INFINITY, largest = 0;
  for (const PathPoint& point : path) {
    const double radius = std::hypot(point.x - x, point.y - y);
    smallest = std::min(smallest, radius);
    largest = std::max(largest, radius);
  }
  return largest - smallest;
}

struct Circle {
  double x = 0, y = 0, radius = 0;
};

// Gauss-Newton on the sum of (distance - radius)^2; with points at equal angles all round, the normal equations of one
// step are diagonal but for terms that the next step takes up.
Circle least_squares_circle(const Path& path) {
  constexpr int steps = 50;
  Circle circle;
  const auto count = static_cast<double>(path.size());
  for (int step = 0; step < steps; ++step) {
    double sum = 0, along_x = 0, along_y = 0;
    for (const PathPoint& point : path) {
      const double distance = std::hypot(point.x - circle.x, point.y - circle.y);
      sum += distance;
      along_x += (point.x - circle.x) / distance * (distance - circle.radius);
      along_y += (point.y - circle.y) / distance * (distance - circle.radius);
    }
    circle = {circle.x + 2 * along_x / count, circle.y + 2 * along_y / count, sum / count};
  }
  return circle;
}

// The smallest value of a convex function on an interval, by golden section.
template <class Function>
double smallest_value(double from, double to, const Function& f) {
  const double part = std::numbers::phi - 1;
  constexpr int sections = 60;
  double left = to - part * (to - from), right = from + part * (to - from);
  double at_left = f(left), at_right = f(right);
  for (int n = 0; n < sections; ++n) {
    if (at_left < at_right) {
      to = right;
      right = left;
      at_right = at_left;
      left = to - part * (to - from);
      at_left = f(left);
    } else {
      from = left;
      left = right;
      at_left = at_right;
      right = from + part * (to - from);
      at_right = f(right);
    }
  }
  return std::min(at_left, at_right);
}

// The best centre lies no farther from that of least squares than that one's ring is wide, since the path goes all
// round.
double minimum_zone(const Path& path, const Circle& circle, double width) {
  const auto best_on = [&](double x) {
    return smallest_value(circle.y - width, circle.y + width, [&](double y) { return ring_width(path, x, y); });
  };
  return width > 0 ? std::min(width, smallest_value(circle.x - width, circle.x + width, best_on)) : 0;
}

CircularDirection evaluate_path(const Path& path) {
  const Circle circle = least_squares_circle(path);
  const double width = ring_width(path, circle.x, circle.y);
  return {{circle.x, circle.y}, circle.radius, width, minimum_zone(path, circle, width)};
}

Result<void> check_deviations(double radius, const std::vector<double>& deviations, std::string_view name) {
  if (deviations.empty()) return {};
  HW_TRY(check_series(deviations, name, circle_points_min));
  for (std::size_t n = 0; n < deviations.size(); ++n) {
    if (std::abs(deviations[n]) <= radius / 10) continue;
    return refuse(ErrorCode::bad_input,
                  "{}[{}]: {} is more than a tenth of the radius; deviations from it are needed, in its unit", name, n,
                  deviations[n]);
  }
  return {};
}

Result<void> check_circle(const CircularDeviations& path) {
  if (!(path.radius > 0 && path.radius <= series_value_max)) {
    return refuse(ErrorCode::bad_input, "radius: a programmed radius above 0, not {}", path.radius);
  }
  if (path.dev_cw.empty() && path.dev_ccw.empty()) {
    return refuse(ErrorCode::bad_input, "dev_cw, dev_ccw: at least one direction is needed");
  }
  HW_TRY(check_deviations(path.radius, path.dev_cw, "dev_cw"));
  HW_TRY(check_deviations(path.radius, path.dev_ccw, "dev_ccw"));
  const bool has_both = !path.dev_cw.empty() && !path.dev_ccw.empty();
  if (has_both && path.dev_cw.size() != path.dev_ccw.size()) {
    return refuse(ErrorCode::bad_input, "dev_cw has {} points and dev_ccw {}: both need the same angles",
                  path.dev_cw.size(), path.dev_ccw.size());
  }
  return {};
}

}  // namespace

Result<CircularPath> evaluate_circular(const CircularDeviations& deviations) {
  HW_TRY(check_circle(deviations));
  Path cw = path_of(deviations.radius, deviations.dev_cw), ccw = path_of(deviations.radius, deviations.dev_ccw);
  CircularPath result;
  if (!cw.empty()) result.cw = evaluate_path(cw);
  if (!ccw.empty()) result.ccw = evaluate_path(ccw);
  std::vector<double> all = deviations.dev_cw;
  all.insert(all.end(), deviations.dev_ccw.begin(), deviations.dev_ccw.end());
  const auto [lowest, highest] = std::minmax_element(all.begin(), all.end());
  result.F_min = *lowest;
  result.F_max = *highest;
  if (cw.empty() || ccw.empty()) return result;
  double hysteresis = 0;
  for (std::size_t n = 0; n < cw.size(); ++n) {
    hysteresis = std::max(hysteresis, std::abs(deviations.dev_cw[n] - deviations.dev_ccw[n]));
  }
  result.H_hysteresis = hysteresis;
  cw.insert(cw.end(), ccw.begin(), ccw.end());
  result.both = evaluate_path(cw);
  return result;
}

}  // namespace hw::condition
