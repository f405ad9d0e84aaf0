#pragma once
// What the stores have to decide today.

#include <vector>

#include "src/service/stores_study.h"
#include "src/service/today_views.h"

namespace hw::service {

struct TodayOfStores {
  std::vector<TodayItemView> orders;   // to be placed before noon, or too late already
  std::vector<TodayItemView> kits;     // of stops within two weeks that go without something, the soonest first
  std::vector<TodayItemView> shelves;  // of which the book says less than nothing
};

// Nothing where the stores keep no part. The caller holds no lock. Errors: what the store refuses.
Result<TodayOfStores> today_of_stores(const OpenShop& shop, StoresStudies& studies, Instant now);

}  // namespace hw::service
