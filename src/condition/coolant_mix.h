#pragma once
// How strong a coolant is, and what to fill in so that the tank is full and right: alligation, a balance of volumes.
//
//   concentration % = refractometer reading (Brix) * product factor
//   top-up concentration = (V_full target - V_now now) / (V_full - V_now)
//
// Below 0 it is too strong even with water alone, above 100 too weak even with concentrate alone: not feasible, which
// is an answer. Then the volume that may stay in the tank is told, so that the rest can be drained and filled up.

#include <optional>

#include "libs/values/result.h"

namespace hw::condition {

struct CoolantTank {
  double V_full = 0, V_now = 0;  // in litres or any other unit; V_now from 0 to V_full
  double brix = 0, factor = 1;   // the factor is on the product's sheet
  double target = 0;             // percent, above 0 up to 100
};

struct CoolantMix {
  double concentration_now = 0;                    // percent
  double topup_volume = 0;                         // to the full mark
  std::optional<double> topup_concentration = {};  // percent; nothing where the tank is full
  double concentrate_volume = 0;                   // of the top-up; 0 where it is too strong already
  bool is_feasible = false;
  double concentration_if_water_only = 0;     // percent, filled up with water
  std::optional<double> volume_to_keep = {};  // where not feasible: what may stay before it is filled up with water, or
                                              // with concentrate where it is too weak
};

// Refuses volumes that are negative or more than fits, readings below 0, factors outside 0.1 to 10, a concentration
// that comes out above 100 %, targets outside 0 to 100.
Result<CoolantMix> coolant_mix(const CoolantTank& tank);

}  // namespace hw::condition
