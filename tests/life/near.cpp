#include "tests/life/near.h"

#include <cmath>

#include <gtest/gtest.h>

namespace hw::tests {

void expect_near(double computed, const value& published, double relative, const std::string& what) {
  const double expected = number(published);
  EXPECT_NEAR(computed, expected, relative * (expected == 0 ? 1 : std::abs(expected))) << what;
}

}  // namespace hw::tests
