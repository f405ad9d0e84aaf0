#include "src/due/rate_quantiles.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "libs/numerics/normal_tail.h"
#include "libs/values/assert.h"

namespace hw::due {
namespace {

constexpr double relative_spread_max = 0.9;  // beyond it the cube root is no gamma distribution any more
constexpr std::array<double, 9> node_offsets = {-3.2, -2.2, -1.4, -0.7, 0, 0.7, 1.4, 2.2, 3.2};
constexpr std::size_t node_rates_max = 4;  // so many of the heaviest beliefs place nodes

// One belief on the scale of the cube root.
struct CubeRoot {
  double weight, middle, spread, degrees;

  explicit CubeRoot(const WeightedRate& rate) : weight(rate.weight), middle(0), spread(0), degrees(rate.degrees) {
    const double c = std::clamp(std::sqrt(rate.variance) / rate.mean, 1e-4, relative_spread_max);
    const double root = std::cbrt(rate.mean);
    middle = root * (1 - c * c / 9);
    spread = root * c / 3;
  }
};

struct Node {
  double root = 0;      // cube root of the rate
  double exceeded = 0;  // as the normal z with P(Z <= z) = P(rate >= root^3)
};

double exceeds(std::span<const CubeRoot> mixture, double root) {
  double chance = 0;
  for (const CubeRoot& one : mixture) {
    chance += one.weight * numerics::student_below((one.middle - root) / one.spread, one.degrees);
  }
  return std::clamp(chance, 1e-9, 1 - 1e-9);
}

std::vector<Node> nodes_of(std::span<const CubeRoot> mixture) {
  std::vector<Node> nodes;
  nodes.reserve(node_rates_max * node_offsets.size());
  for (const CubeRoot& one : mixture.first(std::min(mixture.size(), node_rates_max))) {
    for (const double offset : node_offsets) nodes.push_back({one.middle + offset * one.spread, 0});
  }
  std::sort(nodes.begin(), nodes.end(), [](const Node& a, const Node& b) { return a.root < b.root; });
  for (Node& node : nodes) node.exceeded = numerics::normal_quantile(exceeds(mixture, node.root));
  return nodes;
}

// Between two nodes z is taken as straight; beyond the last ones as going on so.
double root_at(const std::vector<Node>& nodes, double z) {
  std::size_t above = 1;
  while (above + 1 < nodes.size() && nodes[above].exceeded > z) ++above;
  const Node& a = nodes[above - 1];
  const Node& b = nodes[above];
  const double fall = a.exceeded - b.exceeded;
  return fall > 1e-12 ? a.root + (b.root - a.root) * (a.exceeded - z) / fall : b.root;
}

const std::array<double, chances.size()>& chance_quantiles() {
  static const auto quantiles = [] {
    std::array<double, chances.size()> z{};
    for (std::size_t n = 0; n < chances.size(); ++n) z[n] = numerics::normal_quantile(chances[n]);
    return z;
  }();
  return quantiles;
}

}  // namespace

std::array<double, chances.size()> rates_exceeded(std::span<const WeightedRate> mixture) {
  HW_ASSERT(!mixture.empty(), "at least one belief");
  const std::vector<CubeRoot> roots(mixture.begin(), mixture.end());
  const std::vector<Node> nodes = nodes_of(roots);
  std::array<double, chances.size()> rates{};
  double last = 1e300;
  for (std::size_t n = 0; n < chances.size(); ++n) {
    const double root = std::min(last, std::max(0.0, root_at(nodes, chance_quantiles()[n])));
    rates[n] = root * root * root;
    last = root;
  }
  return rates;
}

}  // namespace hw::due
