#include "libs/numerics/root.h"

#include <gtest/gtest.h>

namespace hw::numerics {
namespace {

TEST(Root, IsFoundByNewtonWithinTheBracket) {
  const auto function = [](double x) { return Sloped{x * x - 2, 2 * x}; };
  EXPECT_NEAR(find_root(function, 0, 3, 1e-14), std::sqrt(2.0), 1e-14);
  EXPECT_NEAR(find_root(function, 3, 0, 1e-14), std::sqrt(2.0), 1e-14);
  EXPECT_NEAR(find_root([](double x) { return Sloped{2 - x * x, -2 * x}; }, 0, 3, 1e-14), std::sqrt(2.0), 1e-14);
}

TEST(Root, IsFoundByHalvingWhereNewtonWouldLeave) {
  // Flat at both ends: Newton from the middle of the bracket leaps far out of it.
  const auto function = [](double x) { return Sloped{std::atan(x - 90), 1 / (1 + (x - 90) * (x - 90))}; };
  EXPECT_NEAR(find_root(function, -1000, 1000, 1e-12), 90, 1e-11);
  EXPECT_NEAR(find_root([](double x) { return Sloped{x < 0.3 ? -1.0 : 1.0, 0}; }, 0, 1, 1e-12), 0.3, 1e-11);
}

}  // namespace
}  // namespace hw::numerics
