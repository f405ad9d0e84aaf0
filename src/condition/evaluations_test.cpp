// Laws and refusals of the evaluations by standards; the published values are checked in tests/condition.

#include <algorithm>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "libs/numerics/random.h"
#include "src/condition/air_class.h"
#include "src/condition/circular_path.h"
#include "src/condition/cleanliness_code.h"
#include "src/condition/coolant_mix.h"
#include "src/condition/positioning.h"
#include "src/condition/rating_life.h"
#include "src/condition/vibration_zone.h"
#include "src/condition/viscosity_at.h"
#include "src/condition/viscosity_grade.h"
#include "src/condition/viscosity_index.h"
#include "src/condition/viscosity_index_table.h"

namespace hw::condition {
namespace {

constexpr double not_finite = std::numeric_limits<double>::quiet_NaN();

PositioningRuns some_runs() {
  numerics::Random random(3);
  PositioningRuns runs;
  for (int n = 0; n < 6; ++n) {
    const double target = 100.0 * n;
    runs.target.push_back(target);
    runs.up.emplace_back();
    runs.down.emplace_back();
    for (int run = 0; run < 5; ++run) {
      runs.up.back().push_back(target + 0.003 * n + 0.001 * random.normal());
      runs.down.back().push_back(target + 0.003 * n + 0.004 + 0.001 * random.normal());
    }
  }
  return runs;
}

TEST(Positioning, Property_AnOffsetMovesNothingButTheMeansAndTheWholeHoldsItsParts) {
  const PositioningRuns runs = some_runs();
  PositioningRuns moved = runs;
  for (auto* direction : {&moved.up, &moved.down}) {
    for (auto& positions : *direction) {
      for (double& position : positions) position += 0.5;
    }
  }
  const auto one = evaluate_positioning(runs), other = evaluate_positioning(moved);
  ASSERT_TRUE(one && other);
  EXPECT_NEAR(one->A, other->A, 1e-9);
  EXPECT_NEAR(one->R, other->R, 1e-9);
  EXPECT_NEAR(one->x_mean[2] + 0.5, other->x_mean[2], 1e-9);
  EXPECT_GE(one->A, std::max(one->A_up, one->A_down));
  EXPECT_GE(one->E, std::max(one->E_up, one->E_down));
  EXPECT_GE(one->R, std::max(one->R_up, one->R_down));
  EXPECT_GE(one->A, one->E);
}

TEST(Positioning, RefusesDeviationsRaggedRunsAndTargetsThatFall) {
  PositioningRuns deviations = some_runs();
  deviations.up[1][2] = 0.003;
  const auto refused = evaluate_positioning(deviations);
  ASSERT_FALSE(refused);
  EXPECT_TRUE(refused.error().message.starts_with("up[1][2]: 0.003 is too far from its target 100"));
  PositioningRuns ragged = some_runs();
  ragged.down[3].pop_back();
  EXPECT_FALSE(evaluate_positioning(ragged));
  PositioningRuns falling = some_runs();
  std::swap(falling.target[0], falling.target[1]);
  EXPECT_FALSE(evaluate_positioning(falling));
  PositioningRuns missing = some_runs();
  missing.down.pop_back();
  EXPECT_FALSE(evaluate_positioning(missing));
  EXPECT_FALSE(evaluate_positioning({}));
}

std::vector<double> circle_deviations(double x, double y, double wave, std::size_t count) {
  std::vector<double> deviations;
  for (std::size_t n = 0; n < count; ++n) {
    const double angle = 2 * M_PI * static_cast<double>(n) / static_cast<double>(count);
    deviations.push_back(x * std::cos(angle) + y * std::sin(angle) + wave * std::cos(2 * angle));
  }
  return deviations;
}

TEST(CircularPath, ACentreThatIsOffIsFoundAndTheRestIsRoundness) {
  const auto path = evaluate_circular({50, circle_deviations(0.01, -0.02, 0.004, 360), {}});
  ASSERT_TRUE(path && path->cw);
  EXPECT_NEAR(path->cw->lsq_center[0], 0.01, 1e-5);
  EXPECT_NEAR(path->cw->lsq_center[1], -0.02, 1e-5);
  EXPECT_NEAR(path->cw->G_lsq_center, 0.008, 2e-5);  // cos 2a swings by its amplitude both ways
  EXPECT_FALSE(path->ccw || path->both || path->H_hysteresis);
}

TEST(CircularPath, Property_TheMinimumZoneIsNeverWiderThanAboutAnyCentre) {
  numerics::Random random(11);
  for (int n = 0; n < 10; ++n) {
    std::vector<double> deviations = circle_deviations(0.005, 0.001, 0.003, 60);
    for (double& deviation : deviations) deviation += 0.001 * random.normal();
    const auto path = evaluate_circular({100, deviations, {}});
    ASSERT_TRUE(path && path->cw);
    EXPECT_LE(path->cw->G_minimum_zone, path->cw->G_lsq_center);
    const auto [lowest, highest] = std::minmax_element(deviations.begin(), deviations.end());
    EXPECT_LE(path->cw->G_minimum_zone, *highest - *lowest);
    EXPECT_GT(path->cw->G_minimum_zone, 0.004);
  }
}

TEST(CircularPath, RefusesRadiiForDeviationsAndPathsOfDifferentLength) {
  EXPECT_FALSE(evaluate_circular({100, std::vector<double>(24, 100.01), {}}));
  EXPECT_FALSE(evaluate_circular({100, std::vector<double>(24, 0), std::vector<double>(36, 0)}));
  EXPECT_FALSE(evaluate_circular({100, {0, 0, 0}, {}}));
  EXPECT_FALSE(evaluate_circular({0, std::vector<double>(24, 0), {}}));
  EXPECT_FALSE(evaluate_circular({100, {}, {}}));
}

TEST(CleanlinessCode, Property_MoreParticlesNeverGiveASmallerNumber) {
  int before = 0;
  for (double count = 0.001; count < 1e7; count *= 1.01) {
    const auto number = cleanliness_number(count);
    ASSERT_TRUE(number);
    EXPECT_GE(number->code, before);
    EXPECT_LE(number->code - before, 1);
    before = number->code;
  }
  EXPECT_EQ(before, 29);
}

TEST(CleanlinessCode, FewCountedParticlesAreMarkedAndTheFirstMayBeMissing) {
  const auto marked = cleanliness_code({{1240.0, 310.0, 38.0}, std::array<double, 3>{500, 120, 15}});
  ASSERT_TRUE(marked);
  EXPECT_EQ(marked->code, "17/15/>=12");
  const auto microscope = cleanliness_code({{std::nullopt, 310.0, 38.0}, {}});
  ASSERT_TRUE(microscope);
  EXPECT_EQ(microscope->code, "-/15/12");
}

TEST(CleanlinessCode, RefusesNegativeCountsAndMoreLargeParticlesThanSmall) {
  EXPECT_FALSE(cleanliness_code({{100.0, 200.0, 10.0}, {}}));
  EXPECT_FALSE(cleanliness_code({{100.0, std::nullopt, 10.0}, {}}));
  EXPECT_FALSE(cleanliness_code({{100.0, 50.0, -1.0}, {}}));
  EXPECT_FALSE(cleanliness_number(not_finite));
}

TEST(VibrationZone, AValueOnALimitLiesInNeitherZone) {
  const auto zone = vibration_zone(2.8, VibrationCase::group2_rigid);
  ASSERT_TRUE(zone);
  EXPECT_EQ(zone->zone, "B/C");
  EXPECT_TRUE(zone->is_on_a_limit);
  EXPECT_FALSE(vibration_zone(-0.1, VibrationCase::class_I));
  EXPECT_FALSE(vibration_zone(not_finite, VibrationCase::class_I));
}

TEST(ViscosityGrade, Property_GradesDoNotOverlapAndTheirEndsBelongToThem) {
  const auto grades = viscosity_grades();
  for (std::size_t n = 0; n < grades.size(); ++n) {
    if (n > 0) {
      EXPECT_GT(grades[n].lo, grades[n - 1].hi);
    }
    EXPECT_EQ((*viscosity_grade(grades[n].lo))->vg, grades[n].vg);
    EXPECT_EQ((*viscosity_grade(grades[n].hi))->vg, grades[n].vg);
  }
  EXPECT_FALSE(viscosity_grade(0));
}

TEST(ViscosityAt, Property_TheLineGoesThroughBothAndFallsWithTheTemperature) {
  const auto line = ViscosityLine::through({40, 68}, {100, 8.5});
  ASSERT_TRUE(line);
  EXPECT_NEAR(*line->at(40), 68, 1e-9);
  EXPECT_NEAR(*line->at(100), 8.5, 1e-9);
  double before = 1e9;
  for (double t = -10; t < 150; t += 10) {
    EXPECT_LT(*line->at(t), before);
    before = *line->at(t);
  }
}

TEST(ViscosityAt, RefusesWhatTheEquationDoesNotHoldFor) {
  EXPECT_FALSE(ViscosityLine::through({40, 1.9}, {100, 1}));
  EXPECT_FALSE(ViscosityLine::through({40, 46}, {100, 50}));
  EXPECT_FALSE(ViscosityLine::through({40, 46}, {40, 46}));
  const auto thin = ViscosityLine::through({40, 10}, {100, 2.5});
  ASSERT_TRUE(thin);
  const auto refused = thin->at(180);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().code, ErrorCode::unsupported);
}

TEST(ViscosityIndex, OilsLikeTheReferencesHaveTheIndexOfTheReferences) {
  for (const double Y : {3.0, 8.86, 25.3, 70.0, 90.0}) {
    const auto reference = index_reference(Y);
    ASSERT_TRUE(reference);
    EXPECT_NEAR(viscosity_index({.U = reference->L, .Y = Y})->vi, 0, 1e-9);
    EXPECT_NEAR(viscosity_index({.U = reference->H, .Y = Y})->vi, 100, 1e-9);
  }
}

// A row that was typed wrongly would bend the course of the table: slopes of neighbours differ by less than a fifth.
TEST(ViscosityIndex, NoRowOfTheTableBreaksTheCourseOfItsNeighbours) {
  for (std::size_t n = 2; n < index_rows.size(); ++n) {
    const IndexRow &a = index_rows[n - 2], &b = index_rows[n - 1], &c = index_rows[n];
    EXPECT_LT(b.Y, c.Y);
    EXPECT_NEAR(((c.L - b.L) / (c.Y - b.Y)) / ((b.L - a.L) / (b.Y - a.Y)), 1, 0.2) << b.Y;
    EXPECT_NEAR(((c.H - b.H) / (c.Y - b.Y)) / ((b.H - a.H) / (b.Y - a.Y)), 1, 0.27) << b.Y;
  }
  const auto at_the_end = index_reference(70), beyond = index_reference(70.0001);
  EXPECT_NEAR(at_the_end->L, beyond->L, 0.002 * beyond->L);
  EXPECT_NEAR(at_the_end->H, beyond->H, 0.002 * beyond->H);
}

TEST(ViscosityIndex, RefusesOilsThatDoNotThin) {
  EXPECT_FALSE(viscosity_index({.U = 5, .Y = 8}));
  EXPECT_FALSE(viscosity_index({.U = 50, .Y = 1.5}));
  EXPECT_FALSE(viscosity_index({.U = 50, .Y = 8, .L = 40, .H = 60}));
}

TEST(RatingLife, Property_HalfTheLoadLivesEightTimesAsLongOnBalls) {
  const auto whole = rating_life({35, 8, 1500}), half = rating_life({35, 4, 1500});
  ASSERT_TRUE(whole && half);
  EXPECT_NEAR(half->L10h / whole->L10h, 8, 1e-9);
  const auto roller = rating_life({35, 8, 1500, BearingType::roller}),
             lighter = rating_life({35, 4, 1500, BearingType::roller});
  EXPECT_NEAR(lighter->L10h / roller->L10h, std::pow(2, 10.0 / 3), 1e-9);
}

TEST(RatingLife, BothListsOfA1AreNamed) {
  EXPECT_EQ(*a1_of(95, ReliabilityList::iso_281_2007), 0.64);
  EXPECT_EQ(*a1_of(95, ReliabilityList::iso_281_1990), 0.62);
  EXPECT_FALSE(a1_of(92, ReliabilityList::iso_281_2007));
}

TEST(RatingLife, RefusesWhatIsNoLoadAndNamesOneBeyondTheRange) {
  EXPECT_TRUE(is_beyond_load_range({35, 20, 1500}));
  EXPECT_FALSE(is_beyond_load_range({35, 4, 1500}));
  EXPECT_FALSE(rating_life({35, 0, 1500}));
  EXPECT_FALSE(rating_life({35, 4, -1}));
  EXPECT_FALSE(rating_life({35, 4, 1500, BearingType::ball, 1.2}));
  EXPECT_FALSE(rating_life({not_finite, 4, 1500}));
}

TEST(CoolantMix, Property_FillingInWhatItSaysGivesTheTarget) {
  numerics::Random random(21);
  for (int n = 0; n < 500; ++n) {
    const double full = random.between(50, 2000);
    const CoolantTank tank{full, full * random.between(0, 0.99), random.between(0, 12), random.between(0.5, 2.5),
                           random.between(3, 12)};
    const auto mix = coolant_mix(tank);
    ASSERT_TRUE(mix);
    const double now = mix->concentration_now;
    if (mix->is_feasible) {
      EXPECT_NEAR((tank.V_now * now + 100 * mix->concentrate_volume) / full, tank.target, 1e-9);
      EXPECT_FALSE(mix->volume_to_keep);
    } else {
      ASSERT_TRUE(mix->volume_to_keep);
      const double fill = now > tank.target ? 0 : 100;
      EXPECT_LT(*mix->volume_to_keep, tank.V_now);
      EXPECT_NEAR((*mix->volume_to_keep * now + (full - *mix->volume_to_keep) * fill) / full, tank.target, 1e-9);
    }
  }
}

TEST(CoolantMix, AFullTankIsRightOrNotFeasible) {
  const auto right = coolant_mix({100, 100, 4, 2, 8});
  ASSERT_TRUE(right);
  EXPECT_TRUE(right->is_feasible);
  EXPECT_FALSE(right->topup_concentration);
  const auto weak = coolant_mix({100, 100, 3, 2, 8});
  ASSERT_TRUE(weak);
  EXPECT_FALSE(weak->is_feasible);
}

TEST(CoolantMix, RefusesTanksThatCannotBe) {
  EXPECT_FALSE(coolant_mix({100, 120, 4, 1, 8}));
  EXPECT_FALSE(coolant_mix({100, -1, 4, 1, 8}));
  EXPECT_FALSE(coolant_mix({100, 50, -4, 1, 8}));
  EXPECT_FALSE(coolant_mix({100, 50, 60, 2, 8}));
  EXPECT_FALSE(coolant_mix({100, 50, 4, 1, 0}));
  EXPECT_FALSE(coolant_mix({not_finite, 50, 4, 1, 8}));
}

TEST(AirClass, TheMassDecidesBeyondClassFive) {
  EXPECT_EQ(*particle_class({{1e9, 1e9, 1e6}, {}}), "beyond 5");
  EXPECT_EQ(*particle_class({{1e9, 1e9, 1e6}, 4.0}), "6");
  EXPECT_EQ(*particle_class({{1e9, 1e9, 1e6}, 8.0}), "7");
  EXPECT_EQ(*particle_class({{1e9, 1e9, 1e6}, 11.0}), "X");
  EXPECT_FALSE(particle_class({{-1, 0, 0}, {}}));
  EXPECT_FALSE(oil_class(not_finite));
  EXPECT_FALSE(dew_point_class(-300));
}

}  // namespace
}  // namespace hw::condition
