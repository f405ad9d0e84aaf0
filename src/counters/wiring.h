#pragma once
// Which items make which counters, by the conventions: a small net of gates. A gate keeps how many of its inputs are
// true and how many are unknown, so a change of one input costs the same however many there are.

#include <array>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "src/counters/counter_key.h"
#include "src/counters/machine_model.h"
#include "src/counters/settings.h"
#include "src/counters/truth.h"

namespace hw::counters {

inline constexpr std::uint16_t no_gate = std::numeric_limits<std::uint16_t>::max();

// How a gate joins its inputs.
enum class Joint : std::uint8_t {
  any,        // true if one is true, else unknown if one is unknown, else false
  all,        // false if one is false, else unknown if one is unknown, else true
  all_known,  // unknown if one is unknown, else as `all`
};

// What a gate takes of an item.
enum class Aspect : std::uint8_t {
  as_is,
  is_known,    // true where the item is known, else false
  is_not_off,  // false where the item is known and false, else true
};

Truth aspect_of(Truth truth, Aspect aspect);

struct Gate {
  Joint joint = Joint::any;
  std::uint16_t out = no_gate;  // the gate that takes this one's value; a gate comes before the one it feeds
  std::uint32_t inputs = 0;     // 0: the machine lacks what this needs
  std::uint32_t yes = 0;
  std::uint32_t unknown = 0;
  Truth value = Truth::unknown;

  // One of the inputs, which counted as neither so far, has this value.
  void set(Truth input);
  void change(Truth before, Truth after);
  Truth joined() const;
};

struct Wire {
  std::uint16_t gate = 0;
  Aspect aspect = Aspect::as_is;
};

// `present`: which items have ever been known. Items that are not present feed nothing.
class Wiring {
 public:
  Wiring() = default;
  Wiring(std::span<const Item> items, const CountSettings& settings, const std::vector<bool>& present);

  std::vector<Gate> gates;
  std::array<std::uint16_t, machine_counters> counter_gates;  // by CounterKind; no_gate: the machine lacks it
  // True where motion has to be found from positions, since no feed rate is known.
  bool motion_from_positions = false;

  std::span<const Wire> wires_of(std::size_t item) const {
    return {wires_.data() + wires_begin_[item], wires_.data() + wires_begin_[item + 1]};
  }
  // An item that is present and that some counter takes.
  bool uses(std::size_t item) const { return wires_begin_[item] != wires_begin_[item + 1]; }

 private:
  friend class Wirer;
  std::vector<Wire> wires_;
  std::vector<std::uint32_t> wires_begin_;  // one more than items
};

}  // namespace hw::counters
