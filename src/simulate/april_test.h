#pragma once
// The days that tests of the invented floor play in.

#include "src/simulate/floor.h"

namespace hw::simulate {

inline const Instant april_morning = *parse_instant("2026-04-08T08:45:00Z");

inline FloorPlan april_plan() {
  FloorPlan plan;
  plan.zone = *Zone::find("Europe/Berlin");
  plan.begins_on = LocalDate::of(2026, 4, 1);
  return plan;
}

}  // namespace hw::simulate
