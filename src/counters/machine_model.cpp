#include "src/counters/machine_model.h"

#include <algorithm>
#include <array>
#include <map>

namespace hw::counters {
namespace {

template <std::size_t n>
bool is_one_of(std::string_view word, const std::array<std::string_view, n>& words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

constexpr std::array<std::string_view, 6> not_measured = {"COMMANDED", "PROGRAMMED", "OVERRIDE",
                                                          "PROBE",     "TARGET",     "REMAINING"};
constexpr std::array<std::string_view, 3> own_counter_types = {"ACCUMULATED_TIME", "EQUIPMENT_TIMER", "PROCESS_TIMER"};
constexpr std::array<std::string_view, 4> count_types = {"PART_COUNT", "CYCLE_COUNT", "ACTIVATION_COUNT",
                                                         "DEACTIVATION_COUNT"};
constexpr std::array<std::string_view, 2> jog_and_rapid = {"JOG", "RAPID"};

// A data set and a table are not one value; a time series is its last one, at the time that it bears.
bool is_one_value(const Item& item) { return item.representation != "DATA_SET" && item.representation != "TABLE"; }

bool is_plain_or_actual(const Item& item) { return item.sub_type.empty() || item.sub_type == "ACTUAL"; }

Role role_of_event(const Item& item) {
  if (item.type == "AVAILABILITY") return Role::availability;
  if (item.type == "POWER_STATE" || item.type == "POWER_STATUS") return Role::power_state;
  if (item.type == "EXECUTION") return Role::execution;
  if (is_one_of(item.type, count_types)) return Role::count;
  return Role::none;
}

Role role_of_speed(const Item& item) {
  const bool jogs = is_one_of(item.sub_type, jog_and_rapid);
  if (item.units == "PERCENT") return Role::none;
  if (item.type == "ROTARY_VELOCITY" || item.type == "SPINDLE_SPEED") return Role::spindle_speed;
  if (item.type == "ANGULAR_VELOCITY") return Role::angular_velocity;
  if (item.type == "AXIS_FEEDRATE" && (jogs || is_plain_or_actual(item))) return Role::axis_feed;
  if (item.type == "PATH_FEEDRATE" && jogs) return Role::path_rapid;
  if (item.type == "PATH_FEEDRATE" && is_plain_or_actual(item)) return Role::path_feed;
  return Role::none;
}

Role role_of_sample(const Item& item) {
  if (is_one_of(item.type, own_counter_types)) return Role::own_counter;
  if (is_one_of(item.type, count_types)) return Role::count;
  if (item.type == "LOAD") return Role::load;
  const bool is_position = item.type == "POSITION" || item.type == "PATH_POSITION";
  if (is_position) return is_plain_or_actual(item) ? Role::position : Role::none;
  return role_of_speed(item);
}

}  // namespace

Role role_of(const Item& item) {
  if (!is_one_value(item) || is_one_of(item.sub_type, not_measured)) return Role::none;
  if (item.category == "EVENT") return role_of_event(item);
  if (item.category == "SAMPLE") return role_of_sample(item);
  return Role::none;
}

std::vector<std::string> labels_of(const MachineModel& model) {
  std::map<std::string_view, int> bearers;
  for (const Item& item : model.items) {
    ++bearers[item.id];
    if (!item.name.empty() && item.name != item.id) ++bearers[item.name];
  }
  std::vector<std::string> labels;
  for (const Item& item : model.items) {
    labels.push_back(!item.name.empty() && bearers[item.name] == 1 ? item.name : item.id);
  }
  return labels;
}

}  // namespace hw::counters
