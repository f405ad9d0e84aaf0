#include "src/simulate/dice.h"

#include "libs/values/assert.h"

namespace hw::simulate {

namespace {

// The finalizer of SplitMix64 (Steele, Lea and Flood 2014).
std::uint64_t stir(std::uint64_t z) {
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
  return z ^ (z >> 31);
}

}  // namespace

std::uint64_t mix(std::uint64_t a, std::uint64_t b) { return stir(stir(a + 0x9e3779b97f4a7c15U) ^ b); }

std::uint64_t hash_of(std::string_view text) {
  std::uint64_t hash = 0xcbf29ce484222325U;
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3U;
  return hash;
}

std::uint64_t Dice::next() {
  state_ += 0x9e3779b97f4a7c15U;
  return stir(state_);
}

std::int64_t Dice::between(std::int64_t min, std::int64_t max) {
  HW_ASSERT(min <= max && max - min < (std::int64_t{1} << 32), "a range of less than 2^32 numbers");
  const auto width = static_cast<std::uint64_t>(max - min) + 1;
  return min + static_cast<std::int64_t>(((next() >> 32) * width) >> 32);
}

std::int64_t Dice::exponential(std::int64_t mean) {
  HW_ASSERT(mean >= 0 && mean < (std::int64_t{1} << 26), "a mean below 2^26");
  for (std::uint64_t whole = 0;; ++whole) {
    const std::uint64_t first = next() >> 32;
    std::uint64_t last = first;
    bool odd = true;
    for (std::uint64_t u = next() >> 32; u < last; u = next() >> 32, odd = !odd) last = u;
    // An odd run of falling numbers keeps the first as the fraction; whole * 2^32 stays below 2^37 for all practical
    // purposes (the chance of 32 rejections is e^-32).
    if (odd) return static_cast<std::int64_t>((((whole << 32) + first) >> 1) * static_cast<std::uint64_t>(mean) >> 31);
  }
}

}  // namespace hw::simulate
