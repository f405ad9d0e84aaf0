// Every machine that was read can be looked up, and can be counted.

#include "fuzz/lathe.h"
#include "fuzz/targets.h"
#include "libs/values/assert.h"
#include "src/feeds/device_model.h"
#include "src/feeds/item_index.h"

namespace hw::fuzz {

void devices(std::string_view input) {
  const auto read = feeds::read_devices(input);
  if (!read) return;
  HW_ASSERT(!read->machines.empty(), "a document without machines is refused");
  const feeds::ItemIndex index(read->machines);
  for (const counters::MachineModel& machine : read->machines) {
    HW_ASSERT(index.machine(machine.uuid, machine.name) != feeds::none_found,
              "a machine is found by what it is called");
    HW_ASSERT(machine.items.size() <= feeds::items_max, "items are limited");
    expect_no_more_than_time(counted(machine, {}), count_end);
  }
}

}  // namespace hw::fuzz
