#pragma once
// When something falls due, as a distribution over days, and the first of several such.

#include <array>
#include <optional>
#include <span>
#include <vector>

#include "libs/values/local_date.h"

namespace hw::due {

// The chances that an answer shows.
inline constexpr std::array<double, 7> shown_chances = {.05, .1, .25, .5, .75, .9, .95};

// A distribution of a due day: the days at which the chance rises, with the chance that it has fallen due by the end
// of that day. Days rise strictly, chances do not fall and lie in (0, 1]. What is missing to 1 is never, or beyond
// ten years.
struct DueStep {
  LocalDate on;
  double chance = 0;
};
using DueDistribution = std::vector<DueStep>;

// The first day on which the chance reaches that much; nothing where it never does.
std::optional<LocalDate> quantile(const DueDistribution& due, double chance);
// P(due by the end of that day).
double chance_by(const DueDistribution& due, LocalDate day);

using DueQuantiles = std::array<std::optional<LocalDate>, shown_chances.size()>;  // in order of shown_chances
DueQuantiles quantiles(const DueDistribution& due);

// A calendar date is a distribution of one step.
DueDistribution on_calendar(LocalDate day);

// How triggers of one task hang together.
//   alike        they wait on the same machine's work: when one comes early the others do too. Each quantile of the
//                first is the earliest of the triggers' quantiles (comonotone). The choice for counters of one machine.
//   independent  they have nothing to do with each other, as a counter and a reading: P = 1 - (1 - P1)(1 - P2)...
enum class Together { alike, independent };

// The first of several due days; empty where there is none.
DueDistribution first_of(std::span<const DueDistribution> dues, Together together);

}  // namespace hw::due
