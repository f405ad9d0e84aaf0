#include "src/service/lead_times.h"

#include <algorithm>

namespace hw::service {
namespace {

constexpr int days_looked_ahead = 1100;

}  // namespace

double quoted_days(const catalogue::StoredPartText& part) {
  return std::max(0.5, part.lead_days.value_or(lead_days_unsaid));
}

std::vector<double> days_taken(const OpenShop& shop, std::string_view part) {
  const auto& zone = shop.calendar().zone;
  std::vector<double> days;
  for (const auto& delivery : shop.stores().deliveries_of(part)) {
    days.push_back(std::max(0, zone.date_of(delivery.received_at) - zone.date_of(delivery.placed_at)));
  }
  return days;
}

kits::LeadTime lead_time_of(const OpenShop& shop, const catalogue::StoredPart& part) {
  return kits::LeadTime(quoted_days(part), days_taken(shop, part.number));
}

double chance_there(const OrderRecord& order, const kits::LeadTime& lead, LocalDate placed_on, LocalDate today,
                    LocalDate day) {
  if (day < today) return 0;
  const auto& confirmed = order.text.confirmed_on;
  if (confirmed && today <= *confirmed) return day < *confirmed ? 0 : confirmed_chance;
  return lead.within_after(std::max(0, today - placed_on), day - today);
}

LocalDate expected_on(const OrderRecord& order, const kits::LeadTime& lead, LocalDate placed_on, LocalDate today,
                      double chance) {
  int low = 0;
  int high = days_looked_ahead;
  while (low < high) {
    const int middle = (low + high) / 2;
    if (chance_there(order, lead, placed_on, today, today + middle) >= chance) {
      high = middle;
    } else {
      low = middle + 1;
    }
  }
  return today + low;
}

std::vector<kits::Incoming> incoming_of(const OpenShop& shop, const catalogue::StoredPart& part, LocalDate today) {
  std::vector<kits::Incoming> incoming;
  std::shared_ptr<const kits::LeadTime> lead;
  for (const OrderRecord* order : shop.stores().open_orders_of(part.number)) {
    if (!lead) lead = std::make_shared<const kits::LeadTime>(lead_time_of(shop, part));
    const LocalDate placed_on = shop.calendar().zone.date_of(order->at);
    incoming.push_back({order->outstanding(part.number), expected_on(*order, *lead, placed_on, today, 0.9),
                        [lead, order, placed_on, today](LocalDate day) {
                          return chance_there(*order, *lead, placed_on, today, day);
                        }});
  }
  std::stable_sort(incoming.begin(), incoming.end(),
                   [](const auto& one, const auto& other) { return one.expected_on < other.expected_on; });
  return incoming;
}

}  // namespace hw::service
