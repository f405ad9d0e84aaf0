#include "src/due/rate_quantiles.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "libs/numerics/normal_tail.h"
#include "libs/values/assert.h"

namespace hw::due {
namespace {

constexpr double relative_spread_max = 1.5;  // beyond it the cube root is no gamma distribution any more
constexpr int coarse_steps = 6;
constexpr double log_odds_max = 5.5;   // the chances that are asked for lie well within
constexpr double log_odds_step = 0.8;  // from node to node: between them the log odds are nearly straight
constexpr int halvings_max = 9;

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

double log_odds(double chance) {
  const double bounded = std::clamp(chance, 1e-9, 1 - 1e-9);
  return std::clamp(std::log(bounded / (1 - bounded)), -log_odds_max, log_odds_max);
}

struct Node {
  double root = 0;    // cube root of the rate
  double chance = 0;  // of reaching it
  double odds = 0;    // its log odds, bounded
};

// Nodes lie close where the chance falls steeply: a narrow belief may stand within a wide one.
class Nodes {
 public:
  explicit Nodes(const Mixture& mixture) : mixture_(mixture) {
    const Span span = widest(mixture);
    nodes_.push_back(node_at(span.low));
    for (int n = 1; n <= coarse_steps; ++n) add(node_at(span.low + (span.high - span.low) * n / coarse_steps), 0);
  }
  std::vector<Node> all() && { return std::move(nodes_); }

 private:
  Node node_at(double root) const {
    const double chance = exceeds(mixture_, root);
    return {root, chance, log_odds(chance)};
  }
  // Everything between the last node and `end`, and `end` itself.
  void add(const Node& end, int halvings) {
    const Node& last = nodes_.back();
    if (halvings < halvings_max && last.odds - end.odds > log_odds_step) {
      add(node_at((last.root + end.root) / 2), halvings + 1);
      add(end, halvings + 1);
    } else {
      nodes_.push_back(end);
    }
  }

  const Mixture& mixture_;
  std::vector<Node> nodes_;
};

// Between two nodes the log odds are taken as straight; what is likelier than the first node is no use at all.
double root_at(const std::vector<Node>& nodes, double chance) {
  if (chance > nodes.front().chance) return nodes.front().root > 0 ? nodes.front().root : 0;
  std::size_t above = 1;
  while (above + 1 < nodes.size() && nodes[above].chance > chance) ++above;
  const Node& a = nodes[above - 1];
  const Node& b = nodes[above];
  const double fall = a.odds - b.odds;
  return fall > 1e-12 ? a.root + (b.root - a.root) * (a.odds - log_odds(chance)) / fall : b.root;
}

}  // namespace

std::array<double, chances.size()> rates_exceeded(std::span<const WeightedRate> mixture) {
  HW_ASSERT(!mixture.empty(), "at least one belief");
  const Mixture roots(mixture.begin(), mixture.end());
  const std::vector<Node> nodes = Nodes(roots).all();
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
