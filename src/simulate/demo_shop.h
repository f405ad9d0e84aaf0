#pragma once
// Founds the demo: the shop of demo/shop.toml with months of counting behind it and the record of what was done
// meanwhile. All of it is invented; the counting itself is the real one, fed by the floor.

#include "src/service/found_shop.h"
#include "src/service/store.h"
#include "src/simulate/floor.h"

namespace hw::simulate {

inline constexpr int demo_history_days = 90;

// The floor of that shop; its history begins `demo_history_days` before `now`. Refuses kinds that cannot be simulated.
Result<std::unique_ptr<Floor>> demo_floor(const catalogue::Shop& shop, Instant now);

// Fills an empty store. The machines of the shop are those of the floor, in the same order.
Result<void> found_demo(service::Store& store, const service::NewShop& shop, const Floor& floor, Duration floor_ahead,
                        Instant now);

}  // namespace hw::simulate
