#include "src/simulate/documents.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace hw::simulate {
namespace {

using ::testing::HasSubstr;

TEST(Documents, ElementsAreNamedAsTheStandardSays) {
  EXPECT_EQ(element_of("EQUIPMENT_TIMER"), "EquipmentTimer");
  EXPECT_EQ(element_of("EXECUTION"), "Execution");
  EXPECT_EQ(element_of("ROTARY_VELOCITY"), "RotaryVelocity");
}

TEST(Documents, TextIsEscaped) {
  EXPECT_THAT(print_error({}, "NO_DEVICE", "no device <a&\"b\">"), HasSubstr("no device &lt;a&amp;&quot;b&quot;&gt;"));
}

TEST(Documents, ObservationsStandByComponentAndCategoryNotBySequence) {
  const std::vector<Machine> machines = make_machines(std::vector<MachineEntry>{{"v", "V", Kind::vertical_mill}});
  std::vector<Kept> list;
  const auto item_of = [&](Signal signal) {
    std::uint32_t item = 0;
    while (machines[0].tells[item].signal != signal) ++item;
    return item;
  };
  list.push_back({10, {0, {{}, {}, item_of(Signal::execution), 1.0}}});
  list.push_back({11, {0, {{}, {}, item_of(Signal::spindle_speed), 900.0}}});
  list.push_back({12, {0, {{}, {}, item_of(Signal::path_feed), 2.5}}});
  const std::string xml = print_streams({}, machines, list);
  EXPECT_LT(xml.find(">2.5</PathFeedrate>"), xml.find(">ACTIVE</Execution>"));  // samples before events
  EXPECT_LT(xml.find(">ACTIVE</Execution>"), xml.find(">900</RotaryVelocity>"));
}

}  // namespace
}  // namespace hw::simulate
