#pragma once
// Who will ask for each part, and when: agreed stops, tasks by their forecast due dates and again each cycle after,
// checks that come with every shift or day, failures. A task that is in an agreed stop asks again one cycle after it;
// one that is in none asks three days from now at the earliest, since a stop has to be agreed first (our own choice).
//
// How often a part fails is what the shop says of it, else what the lives of the tasks' parts say under their present
// intervals:  failures a year = use a year * F(T) / integral of R from 0 to T  (renewal reward; Barlow and Proschan
// 1965, chapter 4), by the likeliest distribution.

#include <map>

#include "src/kits/needs.h"
#include "src/proposal/shop_ahead.h"
#include "src/service/lives.h"
#include "src/service/stop_kits.h"

namespace hw::service {

inline constexpr int days_to_agree = 3;

struct NeedTold {
  std::optional<std::string> machine = {};
  std::optional<std::string> task = {};
  std::optional<std::string> title = {};
  std::optional<std::string> stop = {};
  std::optional<std::string> service = {};
  double quantity = 0;
  std::optional<LocalDate> on = {};         // of an agreed stop
  due::DueDistribution due = {};            // of a task
  std::optional<double> times_a_year = {};  // of what comes often, and of failures
};

struct PartNeeds {
  std::vector<NeedTold> told;
  kits::Needs needs;
  int kit_lines_max = 1;  // of the largest kit in which it stands
};
using NeedsByPart = std::map<std::string, PartNeeds, std::less<>>;

// Failures a year of a task's part over all machines of the kind.
struct FailingPart {
  PartName name;
  std::string title;
  std::string machine;  // one that has it
  double per_year = 0;
};
// The caller holds no lock. Errors: what the store refuses.
Result<std::vector<FailingPart>> failing_parts(PartStudies& studies, UseForecasts& forecasts, Instant now);

// The caller holds a lock. `ahead` is the whole shop's.
NeedsByPart needs_by_part(const OpenShop& shop, const proposal::ShopAhead& ahead,
                          const std::vector<FailingPart>& failing, const std::vector<StopKit>& kits);

}  // namespace hw::service
