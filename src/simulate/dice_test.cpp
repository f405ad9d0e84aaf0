#include "src/simulate/dice.h"

#include <cstdint>

#include <gtest/gtest.h>

namespace hw::simulate {
namespace {

TEST(Dice, HashMatchesPublishedFnv1a) {
  // Test vectors of the FNV reference code (draft-eastlake-fnv).
  EXPECT_EQ(hash_of(""), 0xcbf29ce484222325U);
  EXPECT_EQ(hash_of("a"), 0xaf63dc4c8601ec8cU);
  EXPECT_EQ(hash_of("foobar"), 0x85944171f73967e8U);
}

TEST(Dice, NumbersMatchPublishedSplitMix64) {
  // First outputs for the seed 1234567, as public implementations of SplitMix64 give them (from memory).
  Dice dice(1234567);
  EXPECT_EQ(dice.next(), 6457827717110365317U);
  EXPECT_EQ(dice.next(), 3203168211198807973U);
}

TEST(Dice, BetweenReachesBothEndsAndNothingBeyond) {
  Dice dice(7);
  bool has_min = false;
  bool has_max = false;
  for (int i = 0; i < 2000; ++i) {
    const std::int64_t n = dice.between(-3, 4);
    ASSERT_GE(n, -3);
    ASSERT_LE(n, 4);
    has_min = has_min || n == -3;
    has_max = has_max || n == 4;
  }
  EXPECT_TRUE(has_min && has_max);
}

TEST(Dice, ExponentialHasItsMeanAndItsTail) {
  Dice dice(11);
  constexpr int draws = 40'000;
  double sum = 0;
  int beyond_mean = 0;
  for (int i = 0; i < draws; ++i) {
    const std::int64_t n = dice.exponential(100'000);
    sum += static_cast<double>(n);
    beyond_mean += n > 100'000 ? 1 : 0;
  }
  EXPECT_NEAR(sum / draws, 100'000, 2'500);                              // five standard errors
  EXPECT_NEAR(static_cast<double>(beyond_mean) / draws, 0.3679, 0.012);  // e^-1
}

}  // namespace
}  // namespace hw::simulate
