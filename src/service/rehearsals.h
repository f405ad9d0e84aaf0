#pragma once
// What a year of the shop would come to under other intervals: reading only.

#include <mutex>

#include "src/service/rehearsal_views.h"
#include "src/service/year_ahead.h"

namespace hw::service {

inline constexpr int rehearsal_years_min = 10;
inline constexpr int rehearsal_years_max = 2000;
inline constexpr int rehearsal_years_usual = 1000;

// For several threads; one rehearsal at a time, as each takes a core for up to two seconds.
class Rehearsals {
 public:
  Rehearsals(const OpenShop& shop, UseForecasts& forecasts, PartStudies& studies)
      : shop_(shop), forecasts_(forecasts), studies_(studies) {}

  // Plays on the asking thread, off the shop's locks. When the two seconds are over, fewer years were played than
  // asked for, and the view says how many; each of them is the year of its seed and number all the same. Errors:
  // bad_input for years out of range, no change, or what change.h refuses; conflict while another one is played.
  Result<RehearsalView> play(const RehearsalEdit& edit, Instant now);

 private:
  const OpenShop& shop_;
  UseForecasts& forecasts_;
  PartStudies& studies_;
  std::mutex turn_;
};

}  // namespace hw::service
