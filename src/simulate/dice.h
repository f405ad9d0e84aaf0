#pragma once
// Seeded chance that is equal on every platform: whole numbers only, no library distribution.

#include <cstdint>
#include <string_view>

namespace hw::simulate {

// A well-stirred number from two; the seed of a part from the seed of the whole.
std::uint64_t mix(std::uint64_t a, std::uint64_t b);
// A number from a text, always the same one (FNV-1a, 64 bits).
std::uint64_t hash_of(std::string_view text);

class Dice {
 public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}

  std::uint64_t next();
  // Uniform in [min, max], both included; max - min below 2^32.
  std::int64_t between(std::int64_t min, std::int64_t max);
  // True n times in a thousand.
  bool chance(int per_mille) { return between(1, 1000) <= per_mille; }
  // Exponential with that mean (below 2^26), rounded down; by von Neumann's comparison of uniform numbers (1951), which
  // needs no logarithm.
  std::int64_t exponential(std::int64_t mean);

 private:
  std::uint64_t state_;
};

}  // namespace hw::simulate
