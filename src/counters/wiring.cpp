#include "src/counters/wiring.h"

#include <algorithm>

#include "libs/values/assert.h"

namespace hw::counters {

Truth aspect_of(Truth truth, Aspect aspect) {
  switch (aspect) {
    case Aspect::as_is:
      return truth;
    case Aspect::is_known:
      return truth == Truth::unknown ? Truth::no : Truth::yes;
    case Aspect::is_not_off:
      return truth == Truth::no ? Truth::no : Truth::yes;
  }
  return truth;
}

void Gate::set(Truth input) {
  if (input == Truth::yes) ++yes;
  if (input == Truth::unknown) ++unknown;
}

void Gate::change(Truth before, Truth after) {
  yes += static_cast<std::uint32_t>(after == Truth::yes) - static_cast<std::uint32_t>(before == Truth::yes);
  unknown += static_cast<std::uint32_t>(after == Truth::unknown) - static_cast<std::uint32_t>(before == Truth::unknown);
}

Truth Gate::joined() const {
  if (joint == Joint::any) {
    if (yes > 0) return Truth::yes;
    return unknown > 0 ? Truth::unknown : Truth::no;
  }
  const bool one_is_no = yes + unknown < inputs;
  if (joint == Joint::all && one_is_no) return Truth::no;
  if (unknown > 0) return Truth::unknown;
  return one_is_no ? Truth::no : Truth::yes;
}

// Builds the net: gates one after the other, each item's wires collected and then laid out item by item.
class Wirer {
 public:
  Wirer(std::span<const Item> items, const CountSettings& settings, const std::vector<bool>& present, Wiring& wiring)
      : items_(items), settings_(settings), present_(present), wiring_(wiring), wires_(items.size()) {}

  void wire() {
    wiring_.counter_gates.fill(no_gate);
    wiring_.motion_from_positions = !has({Role::path_feed, Role::path_rapid, Role::axis_feed});
    open_machine_gate(
        CounterKind::connected, Joint::any,
        {Role::availability, Role::power_state, Role::execution, Role::spindle_speed, Role::path_feed, Role::path_rapid,
         Role::axis_feed, Role::angular_velocity, Role::load, Role::position, Role::own_counter, Role::count},
        Aspect::is_known);
    wire_powered();
    open_machine_gate(CounterKind::operating, Joint::any, {Role::execution});
    open_machine_gate(CounterKind::spindle, Joint::any, {Role::spindle_speed});
    open_machine_gate(CounterKind::feeding, Joint::any, {Role::path_feed});
    open_machine_gate(CounterKind::axis, Joint::any,
                      {Role::path_feed, Role::path_rapid, Role::axis_feed, Role::position});
    wire_cutting();
    lay_out();
  }

 private:
  using Roles = std::initializer_list<Role>;

  // Loads count only under a limit, positions only where there are no feed rates; MACHINE coordinates come first.
  bool takes_part(std::size_t item) const {
    if (!present_[item]) return false;
    const Role role = items_[item].role;
    if (role == Role::load) return settings_.load_above_percent.has_value();
    if (role != Role::position) return true;
    return wiring_.motion_from_positions && (in_machine_coordinates(item) || !any_in_machine_coordinates());
  }

  bool in_machine_coordinates(std::size_t item) const { return items_[item].coordinate_system == "MACHINE"; }

  bool any_in_machine_coordinates() const {
    for (std::size_t item = 0; item < items_.size(); ++item) {
      if (present_[item] && items_[item].role == Role::position && in_machine_coordinates(item)) return true;
    }
    return false;
  }

  bool is_one_of(std::size_t item, Roles roles) const {
    return std::find(roles.begin(), roles.end(), items_[item].role) != roles.end();
  }

  bool has(Roles roles) const {
    for (std::size_t item = 0; item < items_.size(); ++item) {
      if (present_[item] && is_one_of(item, roles)) return true;
    }
    return false;
  }

  std::uint16_t open_gate(Joint joint) {
    HW_ASSERT(wiring_.gates.size() < no_gate, "a machine has fewer than 65,535 gates");
    wiring_.gates.push_back({.joint = joint});
    return static_cast<std::uint16_t>(wiring_.gates.size() - 1);
  }

  void connect(std::size_t item, std::uint16_t gate, Aspect aspect = Aspect::as_is) {
    wires_[item].push_back({gate, aspect});
    ++wiring_.gates[gate].inputs;
  }

  void connect_all(Roles roles, std::uint16_t gate, Aspect aspect) {
    for (std::size_t item = 0; item < items_.size(); ++item) {
      if (is_one_of(item, roles) && takes_part(item)) connect(item, gate, aspect);
    }
  }

  void join(std::uint16_t from, std::uint16_t into) {
    wiring_.gates[from].out = into;
    ++wiring_.gates[into].inputs;
  }

  void open_machine_gate(CounterKind kind, Joint joint, Roles roles, Aspect aspect = Aspect::as_is) {
    const std::uint16_t gate = open_gate(joint);
    connect_all(roles, gate, aspect);
    if (wiring_.gates[gate].inputs > 0) wiring_.counter_gates[static_cast<std::size_t>(kind)] = gate;
  }

  void wire_powered() {
    for (const PoweredSource source : settings_.powered_sources) {
      if (wire_powered_from(source)) return;
    }
  }

  bool wire_powered_from(PoweredSource source) {
    if (source == PoweredSource::any_item) {
      open_machine_gate(CounterKind::powered, Joint::any,
                        {Role::availability, Role::power_state, Role::execution, Role::spindle_speed, Role::path_feed,
                         Role::path_rapid, Role::axis_feed, Role::angular_velocity, Role::own_counter},
                        Aspect::is_known);
    } else if (source == PoweredSource::power_state) {
      open_machine_gate(CounterKind::powered, Joint::all, {Role::power_state});
    } else if (has({Role::availability})) {
      open_machine_gate(CounterKind::powered, Joint::all_known, {Role::availability});
      connect_all({Role::power_state}, gate_of(CounterKind::powered), Aspect::is_not_off);
    }
    return gate_of(CounterKind::powered) != no_gate;
  }

  std::uint16_t gate_of(CounterKind kind) const { return wiring_.counter_gates[static_cast<std::size_t>(kind)]; }

  void wire_cutting() {
    const bool feeds = gate_of(CounterKind::feeding) != no_gate;
    const std::uint16_t moving = gate_of(feeds ? CounterKind::feeding : CounterKind::axis);
    const std::uint16_t operating = gate_of(CounterKind::operating);
    if (operating == no_gate || moving == no_gate || gate_of(CounterKind::spindle) == no_gate) return;
    const std::uint16_t turning = settings_.load_above_percent ? wire_loaded_spindles() : gate_of(CounterKind::spindle);
    const std::uint16_t cutting = open_gate(Joint::all);
    for (const std::uint16_t part : {operating, turning, moving}) join(part, cutting);
    wiring_.counter_gates[static_cast<std::size_t>(CounterKind::cutting)] = cutting;
  }

  // Any of: turns, and one of the loads on its component reads more than the limit. Gates are opened from the inside
  // out, since each comes before the one it feeds.
  std::uint16_t wire_loaded_spindles() {
    std::vector<std::uint16_t> spindles;
    for (std::size_t item = 0; item < items_.size(); ++item) {
      if (items_[item].role == Role::spindle_speed && present_[item]) spindles.push_back(wire_loaded_spindle(item));
    }
    const std::uint16_t one_of_them = open_gate(Joint::any);
    for (const std::uint16_t spindle : spindles) join(spindle, one_of_them);
    return one_of_them;
  }

  std::uint16_t wire_loaded_spindle(std::size_t spindle) {
    const std::uint16_t loaded = open_gate(Joint::any);
    for (std::size_t item = 0; item < items_.size(); ++item) {
      const bool on_it = items_[item].component_id == items_[spindle].component_id;
      if (items_[item].role == Role::load && on_it && takes_part(item)) connect(item, loaded);
    }
    const std::uint16_t both = open_gate(Joint::all);
    connect(spindle, both);
    if (wiring_.gates[loaded].inputs > 0) join(loaded, both);
    return both;
  }

  void lay_out() {
    wiring_.wires_begin_.assign(1, 0);
    for (const std::vector<Wire>& wires : wires_) {
      wiring_.wires_.insert(wiring_.wires_.end(), wires.begin(), wires.end());
      wiring_.wires_begin_.push_back(static_cast<std::uint32_t>(wiring_.wires_.size()));
    }
  }

  std::span<const Item> items_;
  const CountSettings& settings_;
  const std::vector<bool>& present_;
  Wiring& wiring_;
  std::vector<std::vector<Wire>> wires_;
};

Wiring::Wiring(std::span<const Item> items, const CountSettings& settings, const std::vector<bool>& present) {
  Wirer(items, settings, present, *this).wire();
}

}  // namespace hw::counters
