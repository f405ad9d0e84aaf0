#include "src/simulate/demo_people.h"

#include <gtest/gtest.h>

namespace hw::simulate {
namespace {

TEST(DemoPeople, IdsBeginWithTheirMoment) {
  Dice dice(1);
  const std::string id = uuid_of(dice, Instant::from_millis(0x0123456789ab));
  EXPECT_EQ(id.substr(0, 15), "01234567-89ab-7");
  EXPECT_EQ(id.size(), 36u);
  EXPECT_NE(uuid_of(dice, Instant::from_millis(0x0123456789ab)), id);
}

TEST(DemoPeople, OneIsChosenWhoHasTheSkill) {
  service::ShopRecord shop;
  Dice dice(1);
  EXPECT_EQ(somebody(shop, catalogue::Skill::technician, dice), "somebody");
  shop.people = {{"Ada", catalogue::Skill::technician, false}, {"Bo", catalogue::Skill::machine_operator, false}};
  for (int i = 0; i < 9; ++i) EXPECT_EQ(somebody(shop, catalogue::Skill::technician, dice), "Ada");
}

}  // namespace
}  // namespace hw::simulate
