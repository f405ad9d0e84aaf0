#include "libs/numerics/student.h"

#include <cmath>

#include <gtest/gtest.h>

namespace hw::numerics {
namespace {

// With one degree it is Cauchy's distribution, with two t / sqrt(2 + t^2): both in closed form.
TEST(StudentExact, AgreesWithItsClosedFormsForOneAndTwoDegrees) {
  for (const double t : {-30.0, -2.0, 0.0, 0.5, 4.0}) {
    EXPECT_NEAR(student_above(t, 1), 0.5 - std::atan(t) / M_PI, 1e-15) << t;
    EXPECT_NEAR(student_above(t, 2), 0.5 * (1 - t / std::sqrt(2 + t * t)), 1e-14) << t;
  }
}

TEST(StudentExact, TheQuantileIsTheInverse) {
  for (const double degrees : {1.0, 3.5, 8.0, 34.0, 1000.0}) {
    for (const double probability : {0.001, 0.1, 0.5, 0.95, 0.999}) {
      EXPECT_NEAR(student_above(student_quantile(probability, degrees), degrees), 1 - probability, 1e-12);
    }
  }
}

}  // namespace
}  // namespace hw::numerics
