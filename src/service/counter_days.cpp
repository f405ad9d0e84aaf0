#include "src/service/counter_days.h"

namespace hw::service {

Result<std::vector<DayRecord>> days_of(const OpenShop& shop, std::string_view machine, const std::string& counter,
                                       DaySpan span, Instant now) {
  HW_TAKE(found, shop.find(machine));
  HW_TAKE(stored, shop.store().days_of(machine, counter, span.first, span.last));
  std::map<LocalDate, DayRecord> days;
  {
    const auto lock = shop.look();
    days = found->count.unsaved_days(counter, now);
  }
  for (const DayRecord& day : stored) days.emplace(day.on, day);
  std::vector<DayRecord> within;
  for (const auto& [on, day] : days) {
    if (span.first <= on && on <= span.last) within.push_back(day);
  }
  return within;
}

}  // namespace hw::service
