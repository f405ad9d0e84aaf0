#pragma once
// The basic rating life of a rolling bearing by ISO 281.
//
//   L10 = (C / P)^p million revolutions    p = 3 for ball bearings, 10/3 for roller bearings
//   L10h = 10^6 / (60 n) L10               n in revolutions a minute
//   Lna1 = a1 L10h                         a1 for a reliability above 90 %
//
// Two lists of a1 are in use: the edition of 2007 replaced that of 1990, and catalogues still print the older.

#include <array>

#include "libs/values/result.h"
#include "src/condition/standard_note.h"

namespace hw::condition {

inline constexpr StandardNote rating_life_standard{
    "ISO 281:2007; the list of a1 of ISO 281:1990 beside it", "the formulas and the a1 of 1990: public text",
    "the a1 of 2007",
    "table 12 (a1). aISO, which lubrication and cleanliness change by more than a1 does, is not in the program"};

enum class BearingType { ball, roller };
enum class ReliabilityList { iso_281_1990, iso_281_2007 };

// Reliabilities in percent with their a1 in both lists.
struct ReliabilityFactor {
  double percent, a1_1990, a1_2007;
};
inline constexpr std::array<ReliabilityFactor, 6> reliability_factors = {
    {{90, 1, 1}, {95, 0.62, 0.64}, {96, 0.53, 0.55}, {97, 0.44, 0.47}, {98, 0.33, 0.37}, {99, 0.21, 0.25}}};

// Refuses a reliability that is not one of 90, 95 ... 99.
Result<double> a1_of(double percent, ReliabilityList list);

struct BearingLoad {
  double C = 0;  // dynamic load rating, in the unit of P
  double P = 0;  // equivalent dynamic load
  double n = 0;  // revolutions a minute
  BearingType type = BearingType::ball;
  double a1 = 1;  // above 0 up to 1
};

struct RatingLife {
  double L10_Mrev = 0, L10h = 0, L_na1_h = 0;
};

// ISO 281 means the formula for loads up to C / 2 (from memory).
inline bool is_beyond_load_range(const BearingLoad& load) { return load.P > load.C / 2; }

// Refuses loads and speeds outside 1e-9 to 1e9 (n to 200,000) and an a1 that is not above 0 up to 1.
Result<RatingLife> rating_life(const BearingLoad& load);

}  // namespace hw::condition
