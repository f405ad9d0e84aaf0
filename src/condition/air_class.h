#pragma once
// How clean compressed air is: the classes of ISO 8573-1:2010, written particles.water.oil.
//
// Particles: the largest numbers per cubic metre of 0.1-0.5, 0.5-1 and 1-5 um (classes 1 to 5), else by mass 6 and 7.
// Water: the pressure dew point (classes 1 to 6), else liquid water 7 to 9. Oil: liquid, aerosol and vapour together (1
// to 4). Beyond the last class: X. Class 0 is what user and supplier agree on, stricter than 1; no measurement gives
// it. A value on a limit belongs to the class.

#include <array>
#include <optional>
#include <string>

#include "libs/values/result.h"
#include "src/condition/standard_note.h"

namespace hw::condition {

inline constexpr StandardNote air_standard{
    "ISO 8573-1:2010 tables 1 to 3", "one full public reprint and two partial ones", "nothing",
    "the tables; those of 1991 and 2001 differ (oil class 5 = 25 mg/m3, particles up to 40 um)"};

struct ParticleAir {
  std::array<double, 3> per_m3{};        // of 0.1-0.5, 0.5-1, 1-5 um
  std::optional<double> mg_per_m3 = {};  // for classes 6 and 7
};

// "1" to "7", "X"; "beyond 5" where the mass is not known. Refuses what is negative or not finite.
Result<std::string> particle_class(const ParticleAir& air);
// The pressure dew point in C: "1" to "6", else "liquid or beyond 6". Refuses temperatures outside -150 to 100 C.
Result<std::string> dew_point_class(double celsius);
// Liquid water in g/m3: "7" to "9", "X".
Result<std::string> liquid_class(double g_per_m3);
// Oil in all forms in mg/m3: "1" to "4", "X".
Result<std::string> oil_class(double mg_per_m3);

}  // namespace hw::condition
