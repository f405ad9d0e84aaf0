#pragma once
// How strongly a machine vibrates: the zones of ISO 20816-3 (before it 10816-3) and of ISO 10816-1, for the broad-band
// r.m.s. velocity from 10 to 1000 Hz (2 to 1000 Hz below 600 r/min) at the bearing housings.
//
//   A new machines | B may run for long | C not for long | D may do damage
//
// None of it is written for machine-tool spindles (ISO/TR 17243 is; its limits are not in the program): for a spindle
// it is a plain comparison, and its own trend says more.

#include <array>
#include <string>
#include <string_view>

#include "libs/values/result.h"
#include "src/condition/standard_note.h"

namespace hw::condition {

inline constexpr StandardNote vibration_standard{
    "ISO 20816-3:2022 tables A.1 and A.2 (as ISO 10816-3:2009); ISO 10816-1:1995 annex B",
    "groups 1 and 2: three public programs agree; classes I and II: public text",
    "classes III and IV; several pages print other values under the same name",
    "every limit, the group (1: above 300 kW or shaft height from 315 mm; 2: 15 to 300 kW or 160 to 315 mm) and "
    "whether the "
    "foundation is rigid or flexible. A value on a limit: the standard does not say on which side it lies"};

inline constexpr std::string_view not_for_spindles =
    "None of these limits is written for machine-tool spindles (ISO/TR 17243 is); compare the spindle with its own "
    "past.";

enum class VibrationCase {
  group1_rigid,
  group1_flexible,
  group2_rigid,
  group2_flexible,
  class_I,
  class_II,
  class_III,
  class_IV
};

struct VibrationZone {
  std::string zone;                // "A" to "D"; "A/B" where the value lies on the limit between both
  std::array<double, 3> limits{};  // A/B, B/C, C/D in mm/s
  bool is_on_a_limit = false;
};

// `velocity` in mm/s r.m.s.; refuses what is negative, not finite or above 1000.
Result<VibrationZone> vibration_zone(double velocity, VibrationCase which);

}  // namespace hw::condition
