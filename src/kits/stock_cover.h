#pragma once
// For how long one part's stock meets its needs, and how surely. Days count from today, which is 0. An order of day o
// with lead time L serves the needs of day o + L and after.

#include <optional>

#include "src/kits/demand.h"
#include "src/kits/stores_ahead.h"

namespace hw::kits {

class StockCover {
 public:
  // `part` and `lead` have to outlive it.
  StockCover(const PartAhead& part, const LeadTime& lead, LocalDate today, int days);

  const PartAhead& part() const { return *part_; }
  const LeadTime& lead() const { return *lead_; }
  const Demand& demand() const { return demand_; }
  double position() const { return position_; }  // on hand and ordered

  // P(the needs before an order of that day is there stay within `position`) = E P(D(o + L - 1) <= position): without
  // open orders exactly the chance that nothing is missing until then. Falls with the day, rises with the position.
  double until_delivery(int order_day, double position) const;
  // The amount that is missing, and left over, on the day before an order of that day is there: expected.
  double missing_at_delivery(int order_day, double position) const;

  // P(what is there by then is enough for D(day)): open orders come as their age, or a confirmed day, lets expect.
  double met_on(int day) const { return met_on(day, 0); }
  // The same with so much ordered today.
  double met_on(int day, double ordered_today) const;
  // The least of met_on over the days 0 .. day.
  double met_until(int day, double ordered_today) const;
  // The first day on which met_on falls below that chance; nothing where it does not in the days ahead.
  std::optional<int> short_day(double chance) const;

 private:
  struct Arrived {
    double quantity = 0, chance = 1;
  };
  std::vector<Arrived> arrived_by(int day) const;
  double arrival_chance(const OpenOrder& order, int day) const;

  const PartAhead* part_;
  const LeadTime* lead_;
  Demand demand_;
  double position_ = 0;
};

}  // namespace hw::kits
