#pragma once
// What the lives of a part say: their fit, what is believed of it, and which interval is proposed. Studied once, kept
// until one of the machines' records changes or a day is over.

#include <map>
#include <memory>
#include <mutex>

#include "src/life/interval_choice.h"
#include "src/life/weibull_fit.h"
#include "src/service/lives_of_part.h"
#include "src/service/part_costs.h"

namespace hw::service {

struct PartStudy {
  LivesOfPart seen;
  std::vector<life::Observed> lives;  // of `seen`
  PartCostSums costs;
  std::optional<double> interval;  // the present one, where the counter has one; of several the middle one
  std::optional<life::WeibullFit> fit;
  std::optional<Error> refused;          // why there is no fit
  std::vector<life::Believed> believed;  // empty where there is no fit, or nothing to weigh
  std::optional<life::IntervalChoice> choice;
  std::optional<Error> no_choice;  // why there is none though there is a fit
};

// The middle one of the machines' intervals; of an even number the lower of the two; nothing where none has one.
std::optional<double> middle_interval(const std::vector<PartPlace>& places);
// Under the mean of what its machines' standing costs. The caller holds no lock.
PartCostSums costs_of_part(const OpenShop& shop, const LivesOfPart& seen);

// The caller holds no lock.
PartStudy study_lives(const OpenShop& shop, LivesOfPart seen);

// For several threads at once. Holds no lock of the shop when it is called.
class PartStudies {
 public:
  explicit PartStudies(const OpenShop& shop) : shop_(shop) {}

  // Errors: as of lives_of_part.
  Result<std::shared_ptr<const PartStudy>> of(const PartName& name, Instant now);
  // Of every part of the shop.
  Result<std::vector<std::shared_ptr<const PartStudy>>> all(Instant now);

 private:
  struct Kept {
    std::shared_ptr<const PartStudy> study;
    std::uint64_t tasks_version = 0;  // summed over the machines of the kind
    LocalDate on;
  };
  std::uint64_t version_of(const std::string& kind) const;

  const OpenShop& shop_;
  std::mutex mutex_;
  std::map<PartName, Kept> kept_;
};

}  // namespace hw::service
