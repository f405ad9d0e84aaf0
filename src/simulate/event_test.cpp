#include "src/simulate/event.h"

#include <gtest/gtest.h>

namespace hw::simulate {
namespace {

std::uint32_t item_of(const Machine& machine, Signal signal) {
  std::uint32_t item = 0;
  while (machine.tells.at(item).signal != signal) ++item;
  return item;
}

TEST(Events, ArePrintedInTheWordsOfTheEdition) {
  std::vector<Machine> machines = make_machines(std::vector<MachineEntry>{{"v", "V", Kind::vertical_mill}});
  Machine& machine = machines[0];
  const std::uint32_t execution = item_of(machine, Signal::execution);
  EXPECT_EQ(print_value(machine, execution, 1), "ACTIVE");
  EXPECT_EQ(print_value(machine, execution, 7), "OPTIONAL_STOP");
  machine.traits.edition = Edition::v1_3;
  EXPECT_EQ(print_value(machine, execution, 7), "PROGRAM_OPTIONAL_STOP");
  EXPECT_EQ(print_value(machine, execution, counters::unknown_value), "UNAVAILABLE");
  EXPECT_EQ(print_value(machine, item_of(machine, Signal::spindle_speed), 3200), "3200");
  EXPECT_EQ(print_value(machine, item_of(machine, Signal::path_feed), 12.5), "12.5");
}

TEST(Events, OnlyActiveIsOneForCounters) {
  const std::vector<Machine> machines = make_machines(std::vector<MachineEntry>{{"v", "V", Kind::vertical_mill}});
  const std::uint32_t execution = item_of(machines[0], Signal::execution);
  for (int word = 0; word < 8; ++word) {
    const Event event{{}, {}, execution, static_cast<double>(word)};
    EXPECT_EQ(observation_of(machines[0], event).value, word == 1 ? 1.0 : 0.0);
  }
}

}  // namespace
}  // namespace hw::simulate
