#pragma once
// What the demo's people entered about the stores: a sheet of parts with a count three months ago, orders and their
// deliveries since, what the closed stops took, one order that is late, a shelf from which two people took the last
// filter, and a stop on a Saturday whose kit lacks a part that has to be ordered today. All of it is invented.

#include <vector>

#include "src/service/found_shop.h"

namespace hw::simulate {

// `entries` are those of all machines: the stops among them are what is taken for. `seed` decides the ids and amounts.
std::vector<service::Entry> demo_stores(const service::NewShop& shop, const std::vector<service::Entry>& entries,
                                        std::uint64_t seed, Instant now);

}  // namespace hw::simulate
