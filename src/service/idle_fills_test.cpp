#include "src/service/idle_fills.h"

#include <gtest/gtest.h>

namespace hw::service {
namespace {

TEST(IdleFills, AreToldWithCounterAndItem) {
  OpenMachine machine;
  machine.record.machine.key = "m1";
  machine.record.machine.fills = {{"operating", "auto"}, {"powered", "total"}};
  counters::MachineModel model;
  counters::Item item;
  item.id = "total";
  model.items = {item};
  std::string told;
  tell_idle_fills(machine, model, "feed-1", [&](std::string_view says) { told += std::string(says) + "\n"; });
  EXPECT_EQ(told, "feed feed-1: m1: operating is to be filled by \"auto\", which is no data item of the machine\n");
}

}  // namespace
}  // namespace hw::service
