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

// Every machine starts with the tasks of its kind's set and its own; all count from `now` on. One feed at `agent_url`
// serves all machines, each by its key as the device's name. Refuses a kind without a set, and an own task whose key
// the set has.
Result<NewShop> found_shop(const catalogue::Shop& shop, std::span<const catalogue::TaskSet> sets,
                           const std::string& agent_url, Instant now);

}  // namespace hw::service
