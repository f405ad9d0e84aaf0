#pragma once
// The shop as the planning of stops needs it: a copy, so that planning may take its time.

#include <optional>
#include <string_view>

#include "src/proposal/shop_ahead.h"
#include "src/service/use_forecasts.h"

namespace hw::service {

// Retired tasks are left out, and checks of each start-up, shift and day. With `only` a machine the other machines are
// left out, and its checks are there without a date: people may take them along into a stop. Agreed stops are those of
// all machines. The caller holds no lock. Errors: not_found where there is
// no such machine; what the store refuses.
Result<proposal::ShopAhead> look_ahead(const OpenShop& shop, UseForecasts& forecasts,
                                       std::optional<std::string_view> only, Instant now);

}  // namespace hw::service
