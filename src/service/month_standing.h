#pragma once
// When a machine stood in a month: for findings that stop it, and for agreed stops that were closed.

#include "src/month/month_sums.h"
#include "src/service/month_hours.h"
#include "src/service/stop.h"

namespace hw::service {

// A finding of the severity "stop the machine": a failure of the machine, from the finding to its settlement.
struct Failure {
  Finding finding;
  month::TimeSpan stood;                     // within the month
  bool is_of_month = false;                  // it happened in it, and counts as its failure
  bool goes_on = false;                      // it was not settled at the month's end
  std::optional<double> operating_at_begin;  // the counter when it was found, as totals are counted now
  std::optional<double> operating_at_end;
};

struct ClosedStop {
  Stop stop;
  month::TimeSpan stood;  // within the month
};

struct MonthStanding {
  std::vector<Failure> failures;  // in order of time
  std::vector<ClosedStop> stops;
  int findings_made = 0;
  int findings_settled = 0;
};

// The caller holds no lock on the shop.
Result<MonthStanding> standing_in(const OpenShop& shop, const OpenMachine& machine, const MonthSpan& span);

// Hours of standing and between failures, and what standing cost. The machine that stands for a failure during a stop
// stands for the failure.
void add_standing(month::MonthSums& sums, const MonthStanding& standing, const MonthHours& hours,
                  const month::TimeSpans& planned, double standing_per_hour);

}  // namespace hw::service
