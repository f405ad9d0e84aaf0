#pragma once
// A month of a shop: what of it the shop has seen, and when production was planned in it.

#include "src/month/calendar_month.h"
#include "src/month/time_spans.h"
#include "src/service/open_shop.h"

namespace hw::service {

// From the month's beginning, or the shop's, to its end, or now.
struct MonthSpan {
  month::CalendarMonth month;
  month::TimeSpan time;
  LocalDate first;  // the days that it touches
  LocalDate last;
  bool is_over = false;
};

// Refuses (not_found) a month that has not begun, and one that was over before the shop began.
Result<MonthSpan> span_of(const OpenShop& shop, month::CalendarMonth month, Instant now);

// The hours of the plant's shifts within it; of a plant without shifts the whole of its working days. United.
month::TimeSpans planned_in(const catalogue::PlantCalendar& calendar, const MonthSpan& span);

// What of the month lies on that day.
month::TimeSpans day_in(const catalogue::PlantCalendar& calendar, const MonthSpan& span, LocalDate day);

}  // namespace hw::service
