#pragma once
// What a machine can tell, as its probe document says: its data items, each with the part that it plays for the
// counters.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace hw::counters {

// What an item is good for. `none`: no counter reads it, and a feed need not deliver it.
enum class Role : std::uint8_t {
  none,
  availability,
  power_state,
  execution,
  spindle_speed,     // ROTARY_VELOCITY or SPINDLE_SPEED, actual: revolutions per minute
  path_feed,         // PATH_FEEDRATE, ACTUAL or without sub-type: mm/s
  path_rapid,        // PATH_FEEDRATE, JOG or RAPID: moves axes, is no feeding
  axis_feed,         // AXIS_FEEDRATE: mm/s
  angular_velocity,  // a rotary axis as an axis: degrees/s; an item counter of its own
  load,              // percent of rated
  position,          // one coordinate, mm
  own_counter,       // ACCUMULATED_TIME, EQUIPMENT_TIMER, PROCESS_TIMER: seconds
  count,             // PART_COUNT and the like
};

struct Item {
  std::string id;
  std::string name;      // may be empty
  std::string source;    // text of <Source>, may be empty
  std::string category;  // SAMPLE, EVENT, CONDITION
  std::string type;      // ROTARY_VELOCITY ... (builders' own types keep their prefix: x:MOTION)
  std::string sub_type;  // ACTUAL ... or empty
  std::string units;
  std::string native_units;
  std::string representation;     // VALUE where absent
  std::string coordinate_system;  // MACHINE, WORK or empty
  std::string component;          // element name: Rotary, Linear, Path, Controller ...
  std::string component_id;
  std::string component_name;
  double native_to_units = 1.0;  // value in units = value in native_units * native_to_units
  bool has_reset_trigger = false;
  Role role = Role::none;

  const std::string& label() const { return name.empty() ? id : name; }
  bool operator==(const Item&) const = default;
};

struct MachineModel {
  std::string id;
  std::string name;
  std::string uuid;
  std::vector<Item> items;

  bool operator==(const MachineModel&) const = default;
};

// The part an item plays, by its category, type, sub-type, units and component as counting.md's conventions say:
// COMMANDED, PROGRAMMED, OVERRIDE, PROBE, TARGET items and those in percent play none.
Role role_of(const Item& item);

// What each item is called in reports: its name, or its id where it has none or shares it with another.
std::vector<std::string> labels_of(const MachineModel& model);

}  // namespace hw::counters
