#pragma once
// The machines of the floor: what kind each is, what its control and its feed are like, and which data items it has.
//
// The numbers of a kind (how long it cuts, how fast it turns) are invented but of the order that is common practice.

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "src/counters/machine_model.h"

namespace hw::simulate {

enum class Kind : std::uint8_t {
  vertical_mill,
  horizontal_mill,
  five_axis_mill,
  lathe,
  mill_turn,
  surface_grinder,
  cylindrical_grinder,
};
inline constexpr int kinds = 7;

// "vertical-mill" ... as in the shop's file.
std::string_view print(Kind kind);
std::optional<Kind> parse_kind(std::string_view word);

// What the caller says of a machine. The key is one of letters, digits and '-', and begins with a letter.
struct MachineEntry {
  std::string key;
  std::string name;
  Kind kind = Kind::vertical_mill;
};

enum class Edition : std::uint8_t { v1_3, v1_7, v2_0 };
std::string_view print(Edition edition);  // "1.3"

// What a machine's own hour counters are like.
enum class Timers : std::uint8_t {
  none,
  accumulated,  // ACCUMULATED_TIME x:TOTAL, x:AUTO, x:CUT in steps of 1 s
  equipment,    // EQUIPMENT_TIMER POWERED, OPERATING, WORKING, LOADED in steps of 1 s
  coarse,       // ACCUMULATED_TIME x:SPINDLE in steps of 360 s with noise in the last digits
};

// The oddities of one machine's feed, dealt out by its place in the list so that every floor of 24 has each of them.
struct Traits {
  Edition edition = Edition::v2_0;
  Timers timers = Timers::none;
  std::int64_t clock_ahead_ms = 0;  // the machine's clock against the agent's
  bool has_availability = true;     // one machine never says it
  bool has_feed_rates = true;       // one grinder tells positions only
  bool has_positions = false;
  bool is_off_at_night = false;        // people switch it off when they leave
  bool falls_silent_when_off = false;  // its feed runs on the control and dies with it; else a box beside it says OFF
  int spindles = 1;
  bool spindle_can_contour = false;
};

// What an item tells.
enum class Signal : std::uint8_t {
  availability,
  power_state,
  execution,
  controller_mode,
  part_count,
  system,  // a condition
  path_feed,
  feed_override,
  spindle_speed,
  spindle_load,
  rotary_mode,
  angular_velocity,
  axis_feed,
  position,
  timer,
};

enum class Timer : std::uint8_t { total, automatic, operating, cutting, spindle };

struct Tells {
  Signal signal = Signal::availability;
  std::uint8_t which = 0;  // spindle 0.., axis 0.. (X, Y, Z), or a Timer
};

struct Machine {
  MachineEntry entry;
  std::string uuid;  // invented, from the key
  Traits traits;
  counters::MachineModel model;  // items with roles; name and id are the key
  std::vector<Tells> tells;      // beside model.items
};

// One machine for each entry, in order. Keys must be different.
std::vector<Machine> make_machines(std::span<const MachineEntry> entries);

// An invented list for tests and for trying out: 24 machines of six kinds.
std::vector<MachineEntry> sample_entries();

}  // namespace hw::simulate
