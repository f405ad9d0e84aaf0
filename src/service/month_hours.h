#pragma once
// A machine's counters in a month: by day, and what they stood at when it began and ended.

#include <map>
#include <vector>

#include "src/service/month_span.h"

namespace hw::service {

struct DayHours {
  LocalDate on;
  double operating_h = 0;
  double powered_h = 0;
  double unknown_h = 0;  // of operating; a day of which nothing is known is unknown as a whole
  double powered_unknown_h = 0;
};

struct MonthHours {
  std::vector<DayHours> days;  // each day of the span
  CounterTotals at_begin;      // as totals are counted now: with what hour displays moved later
  CounterTotals at_end;
};

// The caller holds no lock on the shop. Errors: what the store refuses.
Result<MonthHours> hours_in(const OpenShop& shop, const OpenMachine& machine, const MonthSpan& span, Instant now);

// What an entry has written down of a machine's counters, as totals are counted now. The caller holds a lock.
CounterTotals as_counted_now(const OpenMachine& machine, const Entry& entry);

}  // namespace hw::service
