#include "tests/shop/picture.h"

#include "libs/values/assert.h"

namespace hw::shop {
namespace {

using counters::Observation;
using counters::Role;
using counters::unknown_value;

enum Place : std::uint32_t { avail, exec, speed, feed };

counters::Item item_of(std::string id, Role role) {
  counters::Item item;
  item.id = std::move(id);
  item.role = role;
  item.component_id = "c";
  item.type = "T";
  return item;
}

}  // namespace

Picture parse_picture(std::string_view text) {
  const auto begin = text.find(" |");
  HW_ASSERT(begin != std::string_view::npos && text.ends_with('|'), "a picture looks like mill1 |##..|");
  Picture picture{std::string{text.substr(0, begin)}, std::string{text.substr(begin + 2)}};
  picture.marks.pop_back();
  HW_ASSERT(picture.marks.find_first_not_of("#S.o?") == std::string::npos, "the marks are # S . o ?");
  return picture;
}

counters::MachineModel model_of(std::string_view machine) {
  counters::MachineModel model;
  model.name = machine;
  model.id = machine;
  model.items = {item_of("avail", Role::availability), item_of("exec", Role::execution),
                 item_of("Srpm", Role::spindle_speed), item_of("Fact", Role::path_feed)};
  return model;
}

counters::MachineModel changed_model_of(std::string_view machine) {
  auto model = model_of(machine);
  model.items.push_back(item_of("Door", Role::none));
  return model;
}

std::vector<Observation> state_at(char mark, Instant at) {
  if (mark == '?') {
    return {
        {at, avail, unknown_value}, {at, exec, unknown_value}, {at, speed, unknown_value}, {at, feed, unknown_value}};
  }
  if (mark == 'o') return {{at, avail, 0}, {at, exec, 0}, {at, speed, 0}, {at, feed, 0}};
  const double runs = mark == '#' ? 1 : 0;
  const double turns = mark == '#' || mark == 'S' ? 3000 : 0;
  return {{at, avail, 1}, {at, exec, runs}, {at, speed, turns}, {at, feed, runs * 20}};
}

}  // namespace hw::shop
