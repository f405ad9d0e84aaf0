#include "src/life/turnbull.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace hw::life {
namespace {

constexpr double gap_max = 1e-11;
constexpr double rounding = 1e-15;  // of a probability that is a difference of two: a tiny one is known no better
constexpr int rounds_max = 100000;

// An end of an interval. At one age, in this order: an exact life begins, intervals end, open ones begin behind it.
struct End {
  double age = 0;
  int order = 0;  // 0 begins at, 1 ends at, 2 begins behind
  auto operator<=>(const End&) const = default;
};
End begin_of(const Observed& life) { return {life.lower, is_exact(life) ? 0 : 2}; }
End end_of(const Observed& life) { return {life.upper, 1}; }

// A group of alike lives covers the masses first .. last.
struct Cover {
  std::size_t first = 0, last = 0;
  double weight = 0;
};

class Estimate {
 public:
  explicit Estimate(std::span<const Observed> lives) {
    find_masses(lives);
    cover(lives);
    below_.resize(masses_.size() + 1);
    for (std::size_t k = 0; k < below_.size(); ++k) {
      below_[k] = static_cast<double>(k) / static_cast<double>(masses_.size());
    }
  }

  // False where it does not settle.
  bool settle() {
    for (rounds_ = 1; rounds_ <= rounds_max; ++rounds_) {
      if (expectation_step()) return true;
      minorant_step();
    }
    return false;
  }

  Turnbull result(std::span<const Observed> lives) const {
    Turnbull turnbull{masses_, {}, loglik(below_), rounds_};
    for (std::size_t k = 0; k < masses_.size(); ++k) turnbull.masses[k].probability = below_[k + 1] - below_[k];
    std::vector<double> ages;
    for (const Observed& life : lives) {
      if (life.lower > 0) ages.push_back(life.lower);
      if (!is_suspended(life)) ages.push_back(life.upper);
    }
    std::sort(ages.begin(), ages.end());
    ages.erase(std::unique(ages.begin(), ages.end()), ages.end());
    for (const double age : ages) {
      const auto beyond = std::find_if(masses_.begin(), masses_.end(), [&](const Mass& mass) { return mass.by > age; });
      turnbull.survival.push_back({age, 1 - below_[static_cast<std::size_t>(beyond - masses_.begin())]});
    }
    return turnbull;
  }

 private:
  // An innermost interval: a beginning directly followed by an end.
  void find_masses(std::span<const Observed> lives) {
    std::vector<End> ends;
    for (const Observed& life : lives) {
      ends.push_back(begin_of(life));
      ends.push_back(end_of(life));
    }
    std::sort(ends.begin(), ends.end());
    for (std::size_t n = 1; n < ends.size(); ++n) {
      if (ends[n - 1].order != 1 && ends[n].order == 1) masses_.push_back({ends[n - 1].age, ends[n].age, 0});
    }
  }

  void cover(std::span<const Observed> lives) {
    total_ = 0;
    std::map<std::pair<End, End>, double> alike;
    for (const Observed& life : lives) alike[{begin_of(life), end_of(life)}] += life.count;
    for (const auto& [ends, weight] : alike) {
      const auto is_before = [begin = ends.first](const Mass& mass) {
        return End{mass.after, mass.after == mass.by ? 0 : 2} < begin;
      };
      const auto is_within = [end = ends.second](const Mass& mass) { return End{mass.by, 1} <= end; };
      const auto first = std::partition_point(masses_.begin(), masses_.end(), is_before);
      const auto behind = std::partition_point(first, masses_.end(), is_within);
      covers_.push_back({static_cast<std::size_t>(first - masses_.begin()),
                         static_cast<std::size_t>(behind - masses_.begin()) - 1, weight});
      total_ += weight;
    }
  }

  double chance_of(const Cover& cover, const std::vector<double>& below) const {
    return below[cover.last + 1] - below[cover.first];
  }

  double loglik(const std::vector<double>& below) const {
    double sum = 0;
    for (const Cover& one : covers_) sum += one.weight * std::log(chance_of(one, below));
    return sum;
  }

  // Shares each life out over its masses, unless the estimate is reached: the likeliest mass would raise the likelihood
  // per life by nothing more.
  bool expectation_step() {
    std::vector<double> rise(masses_.size() + 1, 0.0);
    double smallest = 1;
    for (const Cover& one : covers_) {
      const double chance = chance_of(one, below_);
      const double part = one.weight / chance;
      smallest = std::min(smallest, chance);
      rise[one.first] += part;
      rise[one.last + 1] -= part;
    }
    double gap = 0, factor = 0, sum = 0;
    std::vector<double> next(below_.size(), 0.0);
    for (std::size_t k = 0; k < masses_.size(); ++k) {
      factor += rise[k];
      gap = std::max(gap, factor / total_ - 1);
      sum += (below_[k + 1] - below_[k]) * std::max(0.0, factor) / total_;
      next[k + 1] = sum;
    }
    if (gap < gap_max + rounding / smallest) return true;
    for (double& value : next) value /= sum;
    below_ = next;
    return false;
  }

  // Newton's step for each point by itself, made ascending again by pooling adjacent violators, and shortened until
  // the likelihood has risen.
  void minorant_step() {
    const std::size_t inner = masses_.size() - 1;
    if (inner == 0) return;
    std::vector<double> slope(inner + 2, 0.0), bend(inner + 2, 0.0);
    for (const Cover& one : covers_) {
      const double part = 1 / chance_of(one, below_);
      slope[one.last + 1] += one.weight * part;
      slope[one.first] -= one.weight * part;
      bend[one.last + 1] += one.weight * part * part;
      bend[one.first] += one.weight * part * part;
    }
    std::vector<double> aim(below_.size());
    for (std::size_t k = 1; k <= inner; ++k) aim[k] = below_[k] + slope[k] / bend[k];
    pool(aim, bend);
    aim.front() = 0;
    aim.back() = 1;
    const double before = loglik(below_);
    std::vector<double> next(below_.size());
    for (double share = 1; share > 1e-10; share *= 0.5) {
      for (std::size_t k = 0; k < next.size(); ++k) next[k] = below_[k] + share * (aim[k] - below_[k]);
      if (loglik(next) > before) {
        below_ = next;
        return;
      }
    }
  }

  // The ascending values nearest to aim[1 .. size - 2], each counting `weight`, cut at 0 and 1.
  static void pool(std::vector<double>& aim, const std::vector<double>& weight) {
    struct Block {
      double mean = 0, weight = 0;
      std::size_t length = 0;
    };
    std::vector<Block> blocks;
    for (std::size_t k = 1; k + 1 < aim.size(); ++k) {
      Block block{aim[k], weight[k], 1};
      while (!blocks.empty() && blocks.back().mean >= block.mean) {
        const Block& last = blocks.back();
        const double both = last.weight + block.weight;
        block = {(last.mean * last.weight + block.mean * block.weight) / both, both, last.length + block.length};
        blocks.pop_back();
      }
      blocks.push_back(block);
    }
    std::size_t k = 1;
    for (const Block& block : blocks) {
      for (std::size_t n = 0; n < block.length; ++n) aim[k++] = std::clamp(block.mean, 0.0, 1.0);
    }
  }

  std::vector<Mass> masses_;
  std::vector<Cover> covers_;
  double total_ = 0;
  std::vector<double> below_;  // the probability of all masses before number k
  int rounds_ = 0;
};

}  // namespace

Result<Turnbull> estimate_turnbull(std::span<const Observed> lives) {
  for (const Observed& life : lives) {
    if (life.entry > 0)
      return refuse(ErrorCode::bad_input, "lives that failed between looks cannot have an entry here");
  }
  if (lives.empty()) return refuse(ErrorCode::bad_input, "no life");
  Estimate estimate(lives);
  if (!estimate.settle()) {
    return refuse(ErrorCode::unsupported, "the estimate has not settled after {} rounds", rounds_max);
  }
  return estimate.result(lives);
}

}  // namespace hw::life
