#pragma once
// What monitoring reads, in the OpenMetrics text form (specification 1.0).

#include <string>

#include "src/service/open_shop.h"

namespace hw::web {

inline constexpr const char* metrics_content_type = "application/openmetrics-text; version=1.0.0; charset=utf-8";

// Hours counted and unknown by machine and counter, whether each machine's feed is live, tasks by machine and state,
// and whether what was counted is stored.
std::string metrics_of(const service::OpenShop& shop, Instant now);

}  // namespace hw::web
