#pragma once
// What a machine does for a while in which nothing changes: the atom of a day's plan.

#include <array>
#include <cstdint>

namespace hw::simulate {

// In the order of the words that an agent writes; see value_words.cpp.
enum class Execution : std::uint8_t {
  ready,
  active,
  interrupted,
  stopped,
  feed_hold,
  program_stopped,
  program_completed,
  optional_stop,
};

enum class Mode : std::uint8_t { automatic, manual, manual_input };

struct Phase {
  std::int32_t begin_ms = 0;  // since the day's begin; ends where the next one begins
  std::int32_t path_feed_um_s = 0;
  std::array<std::int32_t, 2> speed_rpm{};
  std::array<std::uint8_t, 2> load_percent{};
  std::int16_t turn_deg_s = 0;  // of the first spindle as an axis
  std::uint8_t axes = 0;        // which of X (1), Y (2), Z (4) move, when the feed is not 0
  std::uint8_t override_percent = 100;
  Execution execution = Execution::ready;
  Mode mode = Mode::automatic;
  bool power_is_on = true;
  bool contours = false;   // the first spindle is an axis now
  bool has_fault = false;  // broken down
  bool ends_part = false;  // a part is finished at its begin
};

inline bool is_operating(const Phase& p) { return p.execution == Execution::active; }
inline bool is_feeding(const Phase& p) { return p.path_feed_um_s != 0; }
inline bool spindle_turns(const Phase& p) { return p.speed_rpm[0] != 0 || p.speed_rpm[1] != 0; }
inline bool is_cutting(const Phase& p) { return is_operating(p) && is_feeding(p) && spindle_turns(p); }
// As controls count their automatic time: halts within a program included.
inline bool is_automatic(const Phase& p) {
  return p.execution == Execution::active || p.execution == Execution::interrupted ||
         p.execution == Execution::feed_hold || p.execution == Execution::program_stopped ||
         p.execution == Execution::optional_stop;
}

}  // namespace hw::simulate
