#include "src/simulate/demo_people.h"

namespace hw::simulate {

std::string uuid_of(Dice& dice, Instant at) {
  const auto ms = static_cast<std::uint64_t>(at.as_millis());
  return fmt::format("{:08x}-{:04x}-7{:03x}-8{:03x}-{:012x}", ms >> 16, ms & 0xffff, dice.next() & 0xfff,
                     dice.next() & 0xfff, dice.next() & 0xffffffffffff);
}

const std::string& somebody(const service::ShopRecord& shop, catalogue::Skill skill, Dice& dice) {
  std::vector<const catalogue::Person*> able;
  for (const auto& person : shop.people) {
    if (person.skill == skill) able.push_back(&person);
  }
  static const std::string nobody = "somebody";
  if (able.empty()) return nobody;
  return able[static_cast<std::size_t>(dice.between(0, static_cast<std::int64_t>(able.size()) - 1))]->name;
}

}  // namespace hw::simulate
