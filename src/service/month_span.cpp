#include "src/service/month_span.h"

#include <algorithm>

namespace hw::service {

Result<MonthSpan> span_of(const OpenShop& shop, month::CalendarMonth month, Instant now) {
  const Zone& zone = shop.calendar().zone;
  const Instant from = zone.begin_of(month.first);
  const Instant until = zone.end_of(month.last());
  const std::string name = month::print(month);
  if (from > now) {
    const std::string present = month::print(month::month_of(zone.date_of(now)));
    return refuse(ErrorCode::not_found, Saying{"month-ahead", {{"month", name}, {"present", present}}},
                  "{} has not begun; the present month is {}", name, present);
  }
  if (until <= shop.founded_at()) {
    const std::string began_on = print(zone.date_of(shop.founded_at()));
    return refuse(ErrorCode::not_found, Saying{"month-before", {{"month", name}, {"date", began_on}}},
                  "{} was over before the shop began, on {}", name, began_on);
  }
  MonthSpan span{.month = month, .time = {}, .month_ends_at = until, .first = {}, .last = {}, .is_over = until <= now};
  span.time = {std::max(from, shop.founded_at()), std::min(until, now)};
  span.first = zone.date_of(span.time.begins_at);
  span.last = std::min(month.last(), zone.date_of(now));
  return span;
}

month::TimeSpans planned_in(const catalogue::PlantCalendar& calendar, const MonthSpan& span) {
  month::TimeSpans planned;
  for (LocalDate day = span.first - 1; day <= span.last; ++day) {  // a night shift of the day before reaches into it
    for (const catalogue::ShiftTurn& turn : calendar.turns_on(day)) planned.push_back({turn.begins_at, turn.ends_at});
    if (calendar.shifts.empty() && calendar.works_on(day)) {
      planned.push_back({calendar.zone.begin_of(day), calendar.zone.end_of(day)});
    }
  }
  return month::within(planned, span.time);
}

month::TimeSpans day_in(const catalogue::PlantCalendar& calendar, const MonthSpan& span, LocalDate day) {
  return month::within({{calendar.zone.begin_of(day), calendar.zone.end_of(day)}}, span.time);
}

}  // namespace hw::service
