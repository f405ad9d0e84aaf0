#pragma once
// What tasks were done on a machine in a month: whether in time, whether in an agreed stop, and with how much work; and
// which became overdue and were not done.

#include "src/month/month_sums.h"
#include "src/service/month_hours.h"
#include "src/service/views.h"

namespace hw::service {

struct DoneWork {
  std::string entry;
  std::string task;
  std::string title;
  std::string by;
  Instant at;
  double minutes = 0;        // hands on
  bool is_measured = false;  // a person said the minutes; else they are those that the task is planned with
  std::optional<std::string> stop = {};
  bool is_in_time = true;  // by the task's triggers as they are now
};

struct OverdueTask {
  std::string task;
  std::string title;
  bool is_of_month = false;  // it became overdue in the month
};

struct MonthTasks {
  std::vector<DoneWork> done;        // in order of time
  std::vector<OverdueTask> overdue;  // at the month's end
  std::vector<EntryView> changes;    // of tasks, as their entries tell; in order of time
};

// The caller holds no lock on the shop. Refuses (too_large) a machine with more entries than can be read at once.
Result<MonthTasks> tasks_in(const OpenShop& shop, const OpenMachine& machine, const MonthSpan& span,
                            const MonthHours& hours);

void add_tasks_done(month::MonthSums& sums, const MonthTasks& tasks, double labour_per_hour);

}  // namespace hw::service
