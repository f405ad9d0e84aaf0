#include "src/simulate/device_items.h"

#include <fmt/format.h>

namespace hw::simulate {

namespace {

using counters::Item;
using counters::Role;

constexpr std::array<std::string_view, 3> axis_letters{"X", "Y", "Z"};

struct Place {
  std::string_view component;  // element name
  std::string_view short_id;   // behind the machine's key
  std::string_view name;
};

constexpr Place device{"Device", "dev", ""};
constexpr Place controller{"Controller", "cont", "controller"};
constexpr Place path{"Path", "path", "path"};

class ItemList {
 public:
  explicit ItemList(Machine& machine) : machine_(machine) {}

  Item& add(const Place& place, Tells tells, std::string_view short_id, std::string_view category,
            std::string_view type, Role role) {
    Item item;
    item.id = fmt::format("{}-{}", machine_.entry.key, short_id);
    item.name = short_id;
    item.category = category;
    item.type = type;
    item.representation = "VALUE";
    item.component = place.component;
    item.component_id = fmt::format("{}-{}", machine_.entry.key, place.short_id);
    item.component_name = place.name;
    item.role = role;
    machine_.model.items.push_back(std::move(item));
    machine_.tells.push_back(tells);
    return machine_.model.items.back();
  }

  Item& add_sample(const Place& place, Tells tells, std::string_view short_id, std::string_view type,
                   std::string_view sub_type, std::string_view units, Role role) {
    Item& item = add(place, tells, short_id, "SAMPLE", type, role);
    item.sub_type = sub_type;
    item.units = units;
    item.native_units = units;
    return item;
  }

 private:
  Machine& machine_;
};

void add_states(ItemList& list, const Traits& traits) {
  if (traits.has_availability) {
    list.add(device, {Signal::availability}, "avail", "EVENT", "AVAILABILITY", Role::availability);
  }
  list.add(controller, {Signal::power_state}, "power", "EVENT", "POWER_STATE", Role::power_state);
  list.add(controller, {Signal::controller_mode}, "mode", "EVENT", "CONTROLLER_MODE", Role::none);
  list.add(controller, {Signal::system}, "system", "CONDITION", "SYSTEM", Role::none);
  list.add(path, {Signal::execution}, "exec", "EVENT", "EXECUTION", Role::execution);
  list.add(path, {Signal::part_count}, "parts", "EVENT", "PART_COUNT", Role::count);
}

void add_path_feeds(ItemList& list, const Traits& traits) {
  if (!traits.has_feed_rates) return;
  list.add_sample(path, {Signal::path_feed}, "feed", "PATH_FEEDRATE", "ACTUAL", "MILLIMETER/SECOND", Role::path_feed);
  if (traits.edition != Edition::v1_3) return;
  list.add_sample(path, {Signal::feed_override}, "fovr", "PATH_FEEDRATE", "OVERRIDE", "PERCENT", Role::none);
}

void add_axis(ItemList& list, const Traits& traits, std::uint8_t axis) {
  const std::string_view letter = axis_letters.at(axis);
  const std::string component_id = fmt::format("axis-{}", letter);
  const Place linear{"Linear", component_id, letter};
  if (traits.has_feed_rates) {
    list.add_sample(linear, {Signal::axis_feed, axis}, fmt::format("{}feed", letter), "AXIS_FEEDRATE", "ACTUAL",
                    "MILLIMETER/SECOND", Role::axis_feed);
  }
  if (traits.has_positions) {
    list.add_sample(linear, {Signal::position, axis}, fmt::format("{}pos", letter), "POSITION", "ACTUAL", "MILLIMETER",
                    Role::position)
        .coordinate_system = "MACHINE";
  }
}

void add_spindle(ItemList& list, const Traits& traits, std::uint8_t spindle) {
  const std::string letter = fmt::format("S{}", spindle + 1);
  const std::string component_id = fmt::format("axis-{}", letter);
  const Place rotary{"Rotary", component_id, letter};
  // The type's name before 1.2, which machines of that age keep.
  const std::string_view type = traits.edition == Edition::v1_3 ? "SPINDLE_SPEED" : "ROTARY_VELOCITY";
  list.add_sample(rotary, {Signal::spindle_speed, spindle}, letter + "rpm", type, "ACTUAL", "REVOLUTION/MINUTE",
                  Role::spindle_speed);
  list.add_sample(rotary, {Signal::spindle_load, spindle}, letter + "load", "LOAD", "", "PERCENT", Role::load);
  if (spindle != 0 || !traits.spindle_can_contour) return;
  list.add(rotary, {Signal::rotary_mode, spindle}, letter + "mode", "EVENT", "ROTARY_MODE", Role::none);
  list.add_sample(rotary, {Signal::angular_velocity, spindle}, letter + "turn", "ANGULAR_VELOCITY", "ACTUAL",
                  "DEGREE/SECOND", Role::angular_velocity);
}

void add_timer(ItemList& list, Timer timer, std::string_view type, std::string_view sub_type) {
  const auto which = static_cast<std::uint8_t>(timer);
  list.add_sample(controller, {Signal::timer, which}, fmt::format("timer{}", which), type, sub_type, "SECOND",
                  Role::own_counter);
}

void add_timers(ItemList& list, Timers timers) {
  switch (timers) {
    case Timers::none:
      return;
    case Timers::accumulated:
      add_timer(list, Timer::total, "ACCUMULATED_TIME", "x:TOTAL");
      add_timer(list, Timer::automatic, "ACCUMULATED_TIME", "x:AUTO");
      add_timer(list, Timer::cutting, "ACCUMULATED_TIME", "x:CUT");
      return;
    case Timers::equipment:
      add_timer(list, Timer::total, "EQUIPMENT_TIMER", "POWERED");
      add_timer(list, Timer::automatic, "EQUIPMENT_TIMER", "OPERATING");
      add_timer(list, Timer::operating, "EQUIPMENT_TIMER", "WORKING");
      add_timer(list, Timer::cutting, "EQUIPMENT_TIMER", "LOADED");
      return;
    case Timers::coarse:
      add_timer(list, Timer::spindle, "ACCUMULATED_TIME", "x:SPINDLE");
      return;
  }
}

}  // namespace

void add_items(Machine& machine) {
  const Traits& traits = machine.traits;
  machine.model.id = machine.entry.key;
  machine.model.name = machine.entry.key;
  machine.model.uuid = machine.uuid;
  ItemList list(machine);
  add_states(list, traits);
  add_timers(list, traits.timers);
  add_path_feeds(list, traits);
  for (std::uint8_t axis = 0; axis < 3; ++axis) add_axis(list, traits, axis);
  for (std::uint8_t spindle = 0; spindle < traits.spindles; ++spindle) add_spindle(list, traits, spindle);
}

}  // namespace hw::simulate
