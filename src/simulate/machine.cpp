#include "src/simulate/machine.h"

#include <algorithm>

#include <fmt/format.h>

#include "libs/values/assert.h"
#include "src/simulate/device_items.h"
#include "src/simulate/dice.h"

namespace hw::simulate {

namespace {

constexpr std::array<std::string_view, kinds> kind_words{
    "vertical-mill", "horizontal-mill", "five-axis-mill",     "lathe",
    "mill-turn",     "surface-grinder", "cylindrical-grinder"};

bool is_key(std::string_view key) {
  const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  const auto is_good = [&](char c) { return is_letter(c) || (c >= '0' && c <= '9') || c == '-'; };
  return !key.empty() && is_letter(key[0]) && std::all_of(key.begin(), key.end(), is_good);
}

bool is_grinder(Kind kind) { return kind == Kind::surface_grinder || kind == Kind::cylindrical_grinder; }

// In the form of a UUID of version 8 (RFC 9562: own content).
std::string invented_uuid(std::string_view key) {
  const std::uint64_t a = mix(hash_of(key), 1);
  const std::uint64_t b = mix(hash_of(key), 2);
  return fmt::format("{:08x}-{:04x}-8{:03x}-8{:03x}-{:012x}", a >> 32, (a >> 16) & 0xffff, a & 0xfff, b >> 52,
                     b & 0xffffffffffff);
}

Edition edition_for(std::size_t place) {
  if (place % 8 == 3) return Edition::v1_3;
  return place % 8 == 6 ? Edition::v1_7 : Edition::v2_0;
}

// Which clock oddity: every fifth machine's clock runs ahead, by 2 to 40 s.
std::int64_t clock_ahead_for(std::size_t place, std::string_view key) {
  if (place % 5 != 2) return 0;
  return 2000 + static_cast<std::int64_t>(hash_of(key) % 38'000);
}

Timers timers_for(Kind kind) {
  switch (kind) {
    case Kind::lathe:
      return Timers::accumulated;
    case Kind::mill_turn:
      return Timers::equipment;
    case Kind::horizontal_mill:
      return Timers::coarse;
    default:
      return Timers::none;
  }
}

// `rank` is the machine's place among its kind, `grinder` whether it is the first grinder of the list.
Traits traits_for(const MachineEntry& entry, std::size_t place, std::size_t rank, bool is_first_grinder) {
  Traits traits;
  traits.timers = rank == 0 ? timers_for(entry.kind) : Timers::none;
  traits.edition = traits.timers == Timers::equipment ? Edition::v2_0 : edition_for(place);
  traits.clock_ahead_ms = clock_ahead_for(place, entry.key);
  traits.has_availability = !(entry.kind == Kind::five_axis_mill && rank == 0);
  traits.has_feed_rates = !is_first_grinder;
  traits.has_positions = is_first_grinder || place % 4 == 1;
  traits.is_off_at_night = place % 3 == 1;
  traits.falls_silent_when_off = place % 6 == 4;
  traits.spindles = entry.kind == Kind::mill_turn ? 2 : 1;
  traits.spindle_can_contour = entry.kind == Kind::mill_turn;
  return traits;
}

}  // namespace

std::string_view print(Kind kind) { return kind_words.at(static_cast<std::size_t>(kind)); }

std::optional<Kind> parse_kind(std::string_view word) {
  const auto* const found = std::find(kind_words.begin(), kind_words.end(), word);
  if (found == kind_words.end()) return std::nullopt;
  return static_cast<Kind>(found - kind_words.begin());
}

std::string_view print(Edition edition) {
  constexpr std::array<std::string_view, 3> words{"1.3", "1.7", "2.0"};
  return words.at(static_cast<std::size_t>(edition));
}

std::vector<Machine> make_machines(std::span<const MachineEntry> entries) {
  std::vector<Machine> machines;
  std::array<std::size_t, kinds> ranks{};
  bool is_first_grinder = true;
  for (const MachineEntry& entry : entries) {
    HW_ASSERT(is_key(entry.key), "a key is of letters, digits and '-', and begins with a letter");
    for (const Machine& other : machines) HW_ASSERT(other.entry.key != entry.key, "keys are different");
    const bool first = is_grinder(entry.kind) && is_first_grinder;
    if (first) is_first_grinder = false;
    Machine machine;
    machine.entry = entry;
    machine.uuid = invented_uuid(entry.key);
    machine.traits = traits_for(entry, machines.size(), ranks.at(static_cast<std::size_t>(entry.kind))++, first);
    add_items(machine);
    machines.push_back(std::move(machine));
  }
  return machines;
}

std::vector<MachineEntry> sample_entries() {
  constexpr std::array<Kind, 6> six{Kind::vertical_mill, Kind::horizontal_mill, Kind::five_axis_mill,
                                    Kind::lathe,         Kind::mill_turn,       Kind::cylindrical_grinder};
  std::vector<MachineEntry> entries;
  for (int i = 0; i < 24; ++i) {
    entries.push_back(
        {fmt::format("m{:02}", i + 1), fmt::format("Machine {}", i + 1), six.at(static_cast<std::size_t>(i % 6))});
  }
  return entries;
}

}  // namespace hw::simulate
