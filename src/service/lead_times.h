#pragma once
// How long orders take, learned from deliveries, and when an open order is expected. The caller holds a lock.

#include "src/kits/lead_time.h"
#include "src/kits/reservations.h"
#include "src/service/open_shop.h"

namespace hw::service {

// Of a part whose supplier says nothing.
inline constexpr double lead_days_unsaid = 14;
// A day that a supplier confirmed is kept with that chance; our own choice.
inline constexpr double confirmed_chance = 0.95;

double quoted_days(const catalogue::StoredPartText& part);
std::vector<double> days_taken(const OpenShop& shop, std::string_view part);
kits::LeadTime lead_time_of(const OpenShop& shop, const catalogue::StoredPart& part);

// The chance that an order is there by the end of a day: that of the day confirmed, as long as that is ahead, else by
// the lead time after its age.
double chance_there(const OrderRecord& order, const kits::LeadTime& lead, LocalDate placed_on, LocalDate today,
                    LocalDate day);
// The first day by whose end it is there with that chance, at most three years ahead.
LocalDate expected_on(const OrderRecord& order, const kits::LeadTime& lead, LocalDate placed_on, LocalDate today,
                      double chance);

// What open orders still bring of a part, the earliest first.
std::vector<kits::Incoming> incoming_of(const OpenShop& shop, const catalogue::StoredPart& part, LocalDate today);

}  // namespace hw::service
