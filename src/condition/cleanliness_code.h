#pragma once
// How dirty an oil is: the code of ISO 4406 from counts of particles.
//
// Number k: more than the limit of k - 1 particles per millilitre, up to and including the limit of k. The limits are
// rounded (1.3, 2.5, 1300, 2500 ...), so that a logarithm goes wrong near them. Three parts: particles of at least 4, 6
// and 14 um(c) from an automatic counter; two from a microscope (5 and 15 um), written -/a/b.

#include <array>
#include <optional>
#include <string>

#include "libs/values/result.h"
#include "src/condition/standard_note.h"

namespace hw::condition {

inline constexpr StandardNote cleanliness_standard{
    "ISO 4406:1999, 2017 and 2021", "table 1: all 29 limits agree in two public reprints",
    "the sign >= for fewer than 20 counted particles", "the rules for counts below 20 and the wording of the code"};

// The upper limit of each number from 0 to 28, in particles per millilitre.
inline constexpr std::array<double, 29> particles_per_ml_max = {
    0.01, 0.02, 0.04, 0.08, 0.16, 0.32, 0.64, 1.3, 2.5, 5,     10,    20,    40,    80,   160,
    320,  640,  1300, 2500, 5000, 1e4,  2e4,  4e4, 8e4, 1.6e5, 3.2e5, 6.4e5, 1.3e6, 2.5e6};

// 0 to 28; 29 stands for more than 2.5 million particles per millilitre, written ">28".
struct CleanlinessNumber {
  int code = 0;
  bool is_beyond() const { return code > 28; }
  std::string text() const;
};

// Particles per millilitre; refuses what is negative or not finite.
Result<CleanlinessNumber> cleanliness_number(double per_ml);

struct ParticleCounts {
  std::array<std::optional<double>, 3> per_ml{};                // at 4, 6, 14 um(c); the first may be missing
  std::optional<std::array<double, 3>> counted_particles = {};  // as counted in the sample, where that is known
};

struct CleanlinessCode {
  std::array<std::optional<CleanlinessNumber>, 3> numbers{};
  std::string code;  // "17/15/12", "-/15/12", with ">=" before a number that fewer than 20 particles gave
};

// Refuses counts that rise with size (every particle of 14 um is one of 6 um too), and a second or third part that is
// missing.
Result<CleanlinessCode> cleanliness_code(const ParticleCounts& counts);

}  // namespace hw::condition
