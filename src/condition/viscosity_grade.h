#pragma once
// The viscosity grade of an industrial oil by ISO 3448, from its kinematic viscosity at 40 C.
//
// A grade reaches from 0.9 to 1.1 times its midpoint. The number of a small grade is its rounded midpoint (VG 2 2.2, VG
// 3 3.2, VG 5 4.6, VG 7 6.8). Between two grades there is none: an oil of 36 mm2/s has no grade.

#include <array>
#include <optional>

#include "libs/values/result.h"
#include "src/condition/standard_note.h"

namespace hw::condition {

inline constexpr StandardNote grade_standard{"ISO 3448:1992, 20 grades", "VG 32, 46 and 68: public text",
                                             "the other grades and the rule of 10 %",
                                             "table 1; older printings have 18 grades, up to VG 1500"};

struct ViscosityGrade {
  int vg = 0;
  double mid = 0, lo = 0, hi = 0;  // mm2/s at 40 C; both ends belong to the grade
};

inline constexpr std::size_t viscosity_grade_count = 20;
std::array<ViscosityGrade, viscosity_grade_count> viscosity_grades();

// `v40` in mm2/s at 40 C; refuses what is not above 0. Nothing between two grades and outside of all.
Result<std::optional<ViscosityGrade>> viscosity_grade(double v40);

}  // namespace hw::condition
