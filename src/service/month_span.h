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
  Instant month_ends_at;  // also where now is before it: what happens at this very moment belongs to the month
  LocalDate first;        // the days that it touches
  LocalDate last;
  bool is_over = false;
};

// Whether that moment is one of the month.
inline bool is_in(const MonthSpan& span, Instant at) { return span.time.begins_at <= at && at < span.month_ends_at; }

// Refuses (not_found) a month that has not begun, and one that was over before the shop began.
Result<MonthSpan> span_of(const OpenShop& shop, month::CalendarMonth month, Instant now);

// The hours of the plant's shifts within it; of a plant without shifts the whole of its working days. United.
month::TimeSpans planned_in(const catalogue::PlantCalendar& calendar, const MonthSpan& span);

// What of the month lies on that day.
month::TimeSpans day_in(const catalogue::PlantCalendar& calendar, const MonthSpan& span, LocalDate day);

}  // namespace hw::service
