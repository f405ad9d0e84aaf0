#pragma once
// From a shop's file and the starting sets of tasks to the records of a new shop.

#include <span>

#include "src/catalogue/shop.h"
#include "src/service/records.h"

namespace hw::service {

struct NewShop {
  ShopRecord shop;
  std::vector<MachineRecord> machines;
};

// Every machine starts with the tasks of its kind's set and its own; all count from `now` on. Machines with the same
// agent share one feed; without an agent a machine has none. Refuses a kind without a set, a key that two tasks of a
// machine have, tasks on counters, assemblies or points that are not there, an agent's address that is none.
Result<NewShop> found_shop(const catalogue::Shop& shop, std::span<const catalogue::TaskSet> sets, Instant now);

}  // namespace hw::service
