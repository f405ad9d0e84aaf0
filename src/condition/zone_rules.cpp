#include "src/condition/zone_rules.h"

#include <algorithm>

namespace hw::condition {
namespace {

// `needed` of the last `window` points beyond so many sigma on one side, the last point among them.
struct Pattern {
  ZoneRule rule;
  std::size_t window;
  std::size_t needed;
  double sigmas;
};

constexpr Pattern patterns[] = {{ZoneRule::one_beyond_3, 1, 1, 3},
                                {ZoneRule::two_of_3_beyond_2, 3, 2, 2},
                                {ZoneRule::four_of_5_beyond_1, 5, 4, 1},
                                {ZoneRule::eight_on_a_side, 8, 8, 0}};

bool is_met(std::span<const double> x, std::size_t last, double middle, double sigma, const Pattern& pattern,
            double side) {
  const auto is_beyond = [&](double value) { return side * (value - middle) > pattern.sigmas * sigma; };
  if (!is_beyond(x[last])) return false;
  const std::size_t first = last + 1 - std::min(pattern.window, last + 1);
  const auto window = x.subspan(first, last + 1 - first);
  return static_cast<std::size_t>(std::count_if(window.begin(), window.end(), is_beyond)) >= pattern.needed;
}

}  // namespace

std::vector<ZoneCall> zone_calls(std::span<const double> x, double middle, double sigma) {
  std::vector<ZoneCall> calls;
  for (const Pattern& pattern : patterns) {
    ZoneCall call{.rule = pattern.rule};
    for (std::size_t n = 0; sigma > 0 && n < x.size(); ++n) {
      if (is_met(x, n, middle, sigma, pattern, 1) || is_met(x, n, middle, sigma, pattern, -1)) call.at.push_back(n + 1);
    }
    calls.push_back(std::move(call));
  }
  return calls;
}

}  // namespace hw::condition
