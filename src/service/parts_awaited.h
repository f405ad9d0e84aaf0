#pragma once
// Which tasks have to wait for their parts: the stores' word to the planning of stops.
//
// A task of an agreed stop waits where a line of its kit is not reserved: for the day on which it comes with 90 %. The
// others share what no agreed stop needs, those that fall due first first; what then lacks comes with the open orders,
// or with one that is placed today, with 90 %. Tasks whose parts the stores do not know do not wait.

#include <vector>

#include "src/proposal/shop_ahead.h"
#include "src/service/open_shop.h"

namespace hw::service {

// Empty where the stores keep nothing. The caller holds a lock.
std::vector<catalogue::PartsAwaited> parts_awaited(const OpenShop& shop, const proposal::ShopAhead& ahead);

}  // namespace hw::service
