#pragma once
// What the tests of counters share: a machine with one item of each part, and times in seconds.

#include <cmath>
#include <span>
#include <string>
#include <vector>

#include "src/counters/machine_model.h"
#include "src/counters/meter.h"
#include "src/counters/observation.h"

namespace hw::counters {

inline constexpr double gone = unknown_value;  // UNAVAILABLE

inline Instant at_s(double seconds) { return {static_cast<std::int64_t>(std::llround(seconds * 1e9))}; }
inline std::int64_t ns_of_s(double seconds) { return at_s(seconds).ns; }

inline Item item_of(std::string id, Role role, std::string component = "c", std::string type = "T") {
  Item item;
  item.id = std::move(id);
  item.role = role;
  item.component_id = std::move(component);
  item.type = std::move(type);
  return item;
}

// Places of the items of scene_machine().
enum Place : std::uint32_t { avail, power, exec, speed1, speed2, load1, path, rapid, axis_x, rotary, timer, parts };

inline MachineModel scene_machine() {
  MachineModel model;
  model.name = "mill-1";
  model.items = {item_of("avail", Role::availability),
                 item_of("power", Role::power_state),
                 item_of("exec", Role::execution),
                 item_of("speed1", Role::spindle_speed, "S1"),
                 item_of("speed2", Role::spindle_speed, "S2"),
                 item_of("load1", Role::load, "S1"),
                 item_of("path", Role::path_feed),
                 item_of("rapid", Role::path_rapid),
                 item_of("axis_x", Role::axis_feed),
                 item_of("rotary", Role::angular_velocity),
                 item_of("timer", Role::own_counter),
                 item_of("parts", Role::count)};
  model.items[timer].type = "EQUIPMENT_TIMER";
  model.items[timer].sub_type = "WORKING";
  return model;
}

inline Observation seen(double seconds, std::uint32_t item, double value) { return {at_s(seconds), item, value}; }

inline constexpr std::uint32_t operating = static_cast<std::uint32_t>(CounterKind::operating);

inline void settle(Meter& meter, const Observation& one) { meter.settle(one.at, std::span(&one, 1)); }

}  // namespace hw::counters
