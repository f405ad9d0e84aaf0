#include "src/condition/viscosity_grade.h"

#include <cmath>

namespace hw::condition {
namespace {

constexpr std::array<double, viscosity_grade_count> midpoints = {2.2, 3.2, 4.6, 6.8, 10,  15,  22,   32,   46,   68,
                                                                 100, 150, 220, 320, 460, 680, 1000, 1500, 2200, 3200};

// A hundredth is the last digit of all limits.
double to_hundredths(double value) { return std::round(100 * value) / 100; }

}  // namespace

std::array<ViscosityGrade, viscosity_grade_count> viscosity_grades() {
  std::array<ViscosityGrade, viscosity_grade_count> grades;
  for (std::size_t n = 0; n < grades.size(); ++n) {
    const double mid = midpoints[n];
    grades[n] = {static_cast<int>(std::lround(mid)), mid, to_hundredths(0.9 * mid), to_hundredths(1.1 * mid)};
  }
  return grades;
}

Result<std::optional<ViscosityGrade>> viscosity_grade(double v40) {
  if (!(v40 > 0 && std::isfinite(v40))) {
    return refuse(ErrorCode::bad_input, "v: a viscosity above 0 mm2/s, not {}", v40);
  }
  for (const ViscosityGrade& grade : viscosity_grades()) {
    if (v40 >= grade.lo && v40 <= grade.hi) return grade;
  }
  return std::nullopt;
}

}  // namespace hw::condition
