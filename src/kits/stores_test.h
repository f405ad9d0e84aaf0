#pragma once
// Small stores as tests write them.

#include "src/kits/propose_orders.h"

namespace hw::kits {

inline const LocalDate monday = LocalDate::of(2026, 3, 2);

// Deliveries that always took so many days.
inline LeadTime steady_lead(double days) { return LeadTime(days, std::vector<double>(40000, days)); }

inline StoresAhead one_part(PartAhead part, LeadTime lead, double order_cost) {
  StoresAhead stores;
  stores.today = monday;
  stores.leads.push_back(std::move(lead));
  stores.suppliers.push_back({"s", order_cost});
  stores.parts.push_back(std::move(part));
  return stores;
}

inline PartAhead failing_part(double rate_per_day, double on_hand, double wanted) {
  PartAhead part;
  part.key = "seal";
  part.on_hand = on_hand;
  part.needs.failures.push_back({rate_per_day, 1});
  part.price = 10;
  part.wanted = wanted;
  return part;
}

}  // namespace hw::kits
