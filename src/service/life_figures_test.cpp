#include "src/service/life_figures.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

TEST(LifeFigures, NoEndIsLeftOut) {
  EXPECT_EQ(ends_of({1, 2}).upper, 2);
  EXPECT_FALSE(ends_of({1, life::never}).upper);
  EXPECT_FALSE(finite_only(life::never));
}

TEST(LifeFigures, LieInTheirRanges) {
  const std::vector<life::Observed> lives = {{40, 40}, {55, 55}, {70, 70}, {90}};
  const life::WeibullLikelihood likelihood(lives);
  const FitFigures figures = figures_of(likelihood, *life::fit_weibull(likelihood));
  EXPECT_LT(figures.shape_range.lower, figures.shape);
  EXPECT_GT(*figures.scale_range.upper, figures.scale);
  EXPECT_LT(figures.b10, figures.scale);
}

TEST(LifeFigures, OfLivesBetweenLooksTheSurvivalIsTurnbulls) {
  EXPECT_EQ(survival_of(std::vector<life::Observed>{{5, 5}, {7}}).method, "Kaplan-Meier");
  EXPECT_EQ(survival_of(std::vector<life::Observed>{{0, 5}, {7}}).method, "Turnbull");
  EXPECT_TRUE(survival_of({}).points.empty());
}

}  // namespace
}  // namespace hw::service
