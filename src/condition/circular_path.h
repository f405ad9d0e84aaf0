#pragma once
// A circular path, as a telescoping bar or a grid plate measures it, by ISO 230-4.
//
//   the path       points at radius + deviation, at equal angles from +X on, about the programmed centre
//   G              the radial distance of two concentric circles that hold the path between them: about the
//   least-squares
//                  centre, and the smallest there is (minimum zone); of one direction alone, or of both together
//   H              the largest difference between the radii of the two directions at one angle (hysteresis)
//   F              the largest and the smallest deviation from the programmed circle about its own centre
//
// Everything in the unit of the radius. A ring of the minimum zone is found by two nested golden-section searches: its
// width is convex in the centre to within (deviation / radius) squared.

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "libs/values/result.h"
#include "src/condition/standard_note.h"

namespace hw::condition {

inline constexpr StandardNote circular_standard{
    "ISO 230-4:2005 and 2022", "no published evaluation was found; both centres are computed and named",
    "the definitions of G, H and F, and that the least-squares centre may be used",
    "the definitions (clause 3), the filtering and the overlap of the paths, and which centre the acceptance names"};

struct CircularDeviations {
  double radius = 0;                      // programmed
  std::vector<double> dev_cw, dev_ccw{};  // at equal angles, at least 8; one direction may be empty
};

struct CircularDirection {
  std::array<double, 2> lsq_center{};
  double lsq_radius = 0, G_lsq_center = 0, G_minimum_zone = 0;
};

struct CircularPath {
  std::optional<CircularDirection> cw{}, ccw{}, both{};
  std::optional<double> H_hysteresis{};
  double F_max = 0, F_min = 0;
};

// Refuses a radius that is not above 0, both directions empty, fewer than 8 points, directions with different numbers
// of points, and deviations of more than a tenth of the radius: those are radii or another unit.
Result<CircularPath> evaluate_circular(const CircularDeviations& path);

}  // namespace hw::condition
