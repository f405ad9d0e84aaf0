#include "src/due/rate_quantiles.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "libs/numerics/normal_tail.h"
#include "libs/values/assert.h"

namespace hw::due {
namespace {

constexpr double relative_spread_max = 1.5;  // beyond it the cube root is no gamma distribution any more
constexpr std::size_t coarse_nodes = 14;
constexpr std::size_t fine_nodes = 20;
constexpr double tail = 0.004;  // the fine nodes reach from this chance to its complement

// One belief on the scale of the cube root.
struct CubeRoot {
  double weight, middle, inverse_spread;
  numerics::Student student;

  explicit CubeRoot(const WeightedRate& rate)
      : weight(rate.weight), middle(0), inverse_spread(0), student(rate.degrees) {
    const double c = std::clamp(std::sqrt(rate.variance) / rate.mean, 1e-4, relative_spread_max);
    const double root = std::cbrt(rate.mean);
    middle = root * (1 - c * c / 9);
    inverse_spread = 3 / (root * c);
  }
};
using Mixture = std::vector<CubeRoot>;

double exceeds(const Mixture& mixture, double root) {
  double chance = 0;
  for (const CubeRoot& one : mixture)
    chance += one.weight * one.student.below((one.middle - root) * one.inverse_spread);
  return chance;
}

struct Span {
  double low = 0, high = 0;
};

// Where the cube root may lie at all.
Span widest(const Mixture& mixture) {
  Span span{1e300, 0};
  for (const CubeRoot& one : mixture) {
    span.low = std::min(span.low, one.middle - 4 / one.inverse_spread);
    span.high = std::max(span.high, one.middle + 4 / one.inverse_spread);
  }
  return {std::max(0.0, span.low), span.high};
}

struct Node {
  double root = 0;    // cube root of the rate
  double chance = 0;  // of reaching it
};

std::vector<Node> nodes_of(const Mixture& mixture, const Span& span, std::size_t count) {
  std::vector<Node> nodes(count);
  for (std::size_t n = 0; n < count; ++n) {
    nodes[n].root = span.low + (span.high - span.low) * static_cast<double>(n) / static_cast<double>(count - 1);
    nodes[n].chance = exceeds(mixture, nodes[n].root);
  }
  return nodes;
}

// The part of the coarse nodes' span in which the chance lies between the tails.
Span narrowed(const std::vector<Node>& nodes) {
  Span span{nodes.front().root, nodes.back().root};
  for (const Node& node : nodes) {
    if (node.chance > 1 - tail) span.low = node.root;
    if (node.chance < tail) {
      span.high = node.root;
      break;
    }
  }
  return span;
}

double log_odds(double chance) {
  const double bounded = std::clamp(chance, 1e-9, 1 - 1e-9);
  return std::log(bounded / (1 - bounded));
}

// Between two nodes the log odds are taken as straight; what is likelier than the first node is no use at all.
double root_at(const std::vector<Node>& nodes, double chance) {
  if (chance > nodes.front().chance) return nodes.front().root > 0 ? nodes.front().root : 0;
  std::size_t above = 1;
  while (above + 1 < nodes.size() && nodes[above].chance > chance) ++above;
  const Node& a = nodes[above - 1];
  const Node& b = nodes[above];
  const double fall = log_odds(a.chance) - log_odds(b.chance);
  return fall > 1e-12 ? a.root + (b.root - a.root) * (log_odds(a.chance) - log_odds(chance)) / fall : b.root;
}

}  // namespace

std::array<double, chances.size()> rates_exceeded(std::span<const WeightedRate> mixture) {
  HW_ASSERT(!mixture.empty(), "at least one belief");
  const Mixture roots(mixture.begin(), mixture.end());
  const Span narrow = narrowed(nodes_of(roots, widest(roots), coarse_nodes));
  const std::vector<Node> nodes = nodes_of(roots, narrow, fine_nodes);
  std::array<double, chances.size()> rates{};
  double last = 1e300;
  for (std::size_t n = 0; n < chances.size(); ++n) {
    const double root = std::min(last, std::max(0.0, root_at(nodes, chances[n])));
    rates[n] = root * root * root;
    last = root;
  }
  return rates;
}

}  // namespace hw::due
