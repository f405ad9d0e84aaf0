#pragma once
// What the stores need: who asks for each part, what the weeks ahead take of it, what to order. Studied once, kept
// until an entry about the stores or a machine changes something, and for ten minutes at most, since counters run on.

#include <memory>
#include <mutex>

#include "src/kits/demand.h"
#include "src/kits/propose_orders.h"
#include "src/service/part_needs.h"

namespace hw::service {

// One part in the study.
struct PartOutlook {
  const PartNeeds* needs = nullptr;                 // null: nobody asks for it
  std::shared_ptr<const kits::Demand> demand = {};  // of the coming half year; null as above
  const kits::ProposedOrder* order = nullptr;       // in which it is proposed
  const kits::OrderLine* line = nullptr;
  double reserved = 0;    // for agreed stops
  bool is_short = false;  // one of them goes without, or will with the open orders
};

struct StoresStudy {
  LocalDate today;
  NeedsByPart needs;
  kits::StoresAhead ahead;
  kits::StoresProposal proposal;
  std::vector<std::string> suppliers;                        // in the order of ahead.suppliers; one may be empty
  std::map<std::string, PartOutlook, std::less<>> outlooks;  // of every part that is kept
  bool is_price_assumed = false;                             // of parts that have none
};

// The part of a price that is not known: the middle one of those that are, or this where none is. Our own choice.
inline constexpr double price_unsaid = 50;
inline constexpr int weeks_listed = 12, weeks_looked_ahead = 26;

// For several threads at once. Holds no lock of the shop when it is called.
class StoresStudies {
 public:
  StoresStudies(const OpenShop& shop, UseForecasts& forecasts, PartStudies& parts)
      : shop_(shop), forecasts_(forecasts), parts_(parts) {}

  // Errors: what the store refuses.
  Result<std::shared_ptr<const StoresStudy>> at(Instant now);

 private:
  struct Key {
    std::uint64_t stores = 0;
    std::uint64_t machines = 0;
    std::int64_t minutes = 0;
    bool operator==(const Key&) const = default;
  };
  Key key_at(Instant now) const;

  const OpenShop& shop_;
  UseForecasts& forecasts_;
  PartStudies& parts_;
  std::mutex mutex_;
  Key key_;
  std::shared_ptr<const StoresStudy> kept_;
};

}  // namespace hw::service
