#include "src/condition/coolant_mix.h"

#include <algorithm>
#include <cmath>

namespace hw::condition {
namespace {

Result<void> check_tank(const CoolantTank& tank) {
  if (!(tank.V_full > 0 && tank.V_full <= 1e9)) {
    return refuse(ErrorCode::bad_input, "V_full: a volume above 0, not {}", tank.V_full);
  }
  if (!(tank.V_now >= 0 && tank.V_now <= tank.V_full)) {
    return refuse(ErrorCode::bad_input, "V_now: from 0 to V_full = {}, not {}", tank.V_full, tank.V_now);
  }
  if (!(tank.brix >= 0 && tank.brix <= 100)) {
    return refuse(ErrorCode::bad_input, "brix: a reading from 0 to 100, not {}", tank.brix);
  }
  if (!(tank.factor >= 0.1 && tank.factor <= 10)) {
    return refuse(ErrorCode::bad_input, "factor: the product's, from 0.1 to 10, not {}", tank.factor);
  }
  if (tank.brix * tank.factor > 100) {
    return refuse(ErrorCode::bad_input, "brix: {} times the factor {} is more than 100 %", tank.brix, tank.factor);
  }
  if (!(tank.target > 0 && tank.target <= 100)) {
    return refuse(ErrorCode::bad_input, "target: above 0 up to 100 %, not {}", tank.target);
  }
  return {};
}

// The part of the tank that may stay so that what fills it up, at `fill` percent, brings it to the target.
double volume_to_keep(const CoolantTank& tank, double now, double fill) {
  return tank.V_full * (tank.target - fill) / (now - fill);
}

}  // namespace

Result<CoolantMix> coolant_mix(const CoolantTank& tank) {
  HW_TRY(check_tank(tank));
  const double now = tank.brix * tank.factor;
  CoolantMix mix{.concentration_now = now,
                 .topup_volume = tank.V_full - tank.V_now,
                 .concentration_if_water_only = tank.V_now * now / tank.V_full};
  const double missing = tank.V_full * tank.target - tank.V_now * now;  // percent times volume
  if (mix.topup_volume > 0) {
    const double topup = missing / mix.topup_volume;
    mix.topup_concentration = topup;
    mix.is_feasible = topup >= 0 && topup <= 100;
    mix.concentrate_volume = mix.topup_volume * std::clamp(topup, 0.0, 100.0) / 100;
  } else {
    mix.is_feasible = missing == 0;
  }
  if (!mix.is_feasible) mix.volume_to_keep = volume_to_keep(tank, now, missing < 0 ? 0 : 100);
  return mix;
}

}  // namespace hw::condition
