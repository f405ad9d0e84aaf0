#pragma once
// The shop as a year of it is played (src/rehearsal): a copy, so that playing may take its time.
//
// The year begins today. Use is drawn from the machine's past days as they were counted, all counters of a day
// together; where a weekday has none on which all of them are known, each counter has the mean that its forecast
// expects, with a scatter of half of it. Days on which the plant is closed have no use. A task whose part has no lives
// that can be weighed is only work. What a failure costs is as in part_costs.h.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "src/life/believed_lives.h"
#include "src/rehearsal/shop_year.h"
#include "src/service/part_study.h"
#include "src/service/use_forecasts.h"

namespace hw::service {

// What is believed of the lives of a kind's parts.
struct BelievedLives {
  std::optional<std::string> counter;  // on which they age; nothing: days
  std::vector<life::Believed> believed;
};
using LivesByPart = std::map<PartName, BelievedLives>;

// Of the parts whose lives can be weighed. The caller holds no lock. Errors: what the store refuses.
Result<LivesByPart> believed_parts(PartStudies& studies, Instant now);

struct YearAhead {
  rehearsal::ShopYear shop;
  int parts = 0;        // tasks whose part can fail
  int without_use = 0;  // tasks that are left out: nothing is known of how their counter is used
};

// Retired tasks and the checks of each start-up, shift and day are left out. The caller holds no lock. Errors: what the
// store refuses.
Result<YearAhead> year_ahead(const OpenShop& shop, UseForecasts& forecasts, const LivesByPart& lives, Instant now);

}  // namespace hw::service
