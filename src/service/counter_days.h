#pragma once
// A counter's days, those that are stored and those that are not yet.

#include <string>
#include <string_view>
#include <vector>

#include "src/service/open_shop.h"

namespace hw::service {

// From the first to the last day. The caller holds no lock on the shop.
struct DaySpan {
  LocalDate first;
  LocalDate last;
};

// In order of time; days of which nothing is known have no row. Errors: not_found where there is no such machine.
Result<std::vector<DayRecord>> days_of(const OpenShop& shop, std::string_view machine, const std::string& counter,
                                       DaySpan span, Instant now);

}  // namespace hw::service
