#pragma once
// Seeded chance that is the same on every run: SplitMix64 (Steele, Lea and Flood 2014) and textbook transforms, none of
// the library's distributions, whose results differ between libraries.

#include <cstdint>

namespace hw::numerics {

class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}

  std::uint64_t next();
  double uniform();  // in (0, 1), never an end
  // In (min, max).
  double between(double min, double max) { return min + (max - min) * uniform(); }
  // Its logarithm is uniform; 0 < min <= max.
  double log_between(double min, double max);
  // A whole number from min to max, both included.
  int whole_between(int min, int max);
  bool chance(double probability) { return uniform() < probability; }
  double normal();             // mean 0, standard deviation 1
  double gamma(double shape);  // shape > 0, scale 1 (Marsaglia and Tsang 2000)
  // 1, 2, 3 ... with that mean, which is at least 1.
  int geometric(double mean);

 private:
  std::uint64_t state_;
};

}  // namespace hw::numerics
