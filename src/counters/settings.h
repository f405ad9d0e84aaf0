#pragma once
// What can be chosen about counting; the conventions themselves cannot.

#include <optional>
#include <vector>

#include "libs/values/instant.h"
#include "libs/values/zone.h"

namespace hw::counters {

// Where `powered` comes from. The first source of the list that the machine has decides.
enum class PoweredSource : std::uint8_t {
  availability,  // Availability is AVAILABLE and no PowerState is OFF
  power_state,   // all PowerStates are ON
  any_item,      // any item is known: for machines that say neither
};

struct CountSettings {
  // A spindle that has a load item cuts only above so many percent. Nothing: load does not matter.
  std::optional<double> load_above_percent;
  std::vector<PoweredSource> powered_sources = {PoweredSource::availability, PoweredSource::power_state};
  // Keep each local day's share, days cut at the zone's midnights.
  bool by_day = false;
  Zone zone = Zone::utc();
  // Live only: so long after the last sign of life held values end as unknown. Nothing: they hold.
  std::optional<Duration> silence_limit;
};

// Two positions that differ by no more are the same: the last digit toggles at standstill.
inline constexpr double dead_band = 0.001;
// A changed position means motion during this time before it, not since the position before.
inline constexpr Duration motion_before_position = Duration::seconds(2);
// How far a machine's clock may be ahead of its agent's for the rule of two clocks.
inline constexpr Duration clock_skew_max = Duration::seconds(900);

}  // namespace hw::counters
