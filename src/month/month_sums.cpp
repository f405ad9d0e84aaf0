#include "src/month/month_sums.h"

#include <cmath>

namespace hw::month {
namespace {

struct Named {
  const char* name;
  double MonthSums::*sum;
};
constexpr Named sums_named[] = {{"planned_h", &MonthSums::planned_h},
                                {"operating_h", &MonthSums::operating_h},
                                {"powered_h", &MonthSums::powered_h},
                                {"unknown_h", &MonthSums::unknown_h},
                                {"powered_unknown_h", &MonthSums::powered_unknown_h},
                                {"between_h", &MonthSums::between_h},
                                {"repair_h", &MonthSums::repair_h},
                                {"corrective_h", &MonthSums::corrective_h},
                                {"stops_h", &MonthSums::stops_h},
                                {"work_h", &MonthSums::work_h},
                                {"work_in_stops_h", &MonthSums::work_in_stops_h},
                                {"care_cost", &MonthSums::care_cost},
                                {"failure_cost", &MonthSums::failure_cost}};

struct NamedCount {
  const char* name;
  int MonthSums::*count;
};
constexpr NamedCount counts_named[] = {{"machines", &MonthSums::machines},
                                       {"failures", &MonthSums::failures},
                                       {"repairs_going_on", &MonthSums::repairs_going_on},
                                       {"tasks_done", &MonthSums::tasks_done},
                                       {"tasks_done_in_time", &MonthSums::tasks_done_in_time},
                                       {"tasks_overdue_undone", &MonthSums::tasks_overdue_undone},
                                       {"turns", &MonthSums::turns},
                                       {"turns_walked", &MonthSums::turns_walked}};

// A sum of doubles may be more than another by its rounding.
bool is_more(double part, double whole) { return part > whole + 1e-9 * (1 + whole); }

}  // namespace

MonthSums& MonthSums::operator+=(const MonthSums& more) {
  for (const auto& [name, sum] : sums_named) this->*sum += more.*sum;
  for (const auto& [name, count] : counts_named) this->*count += more.*count;
  return *this;
}

Result<void> check(const MonthSums& sums) {
  for (const auto& [name, sum] : sums_named) {
    const double value = sums.*sum;
    if (std::isfinite(value) && value >= 0 && value <= 1e12) continue;
    return refuse(ErrorCode::bad_input, "{}: {} cannot be; right is 0 or more", name, value);
  }
  for (const auto& [name, count] : counts_named) {
    if (sums.*count < 0) return refuse(ErrorCode::bad_input, "{}: {} cannot be; right is 0 or more", name, sums.*count);
  }
  if (is_more(sums.work_in_stops_h, sums.work_h)) {
    return refuse(ErrorCode::bad_input, "work_in_stops_h: {} is more than the {} of all work", sums.work_in_stops_h,
                  sums.work_h);
  }
  if (sums.tasks_done_in_time > sums.tasks_done || sums.turns_walked > sums.turns) {
    return refuse(ErrorCode::bad_input, "a part is more than the whole: tasks_done_in_time, turns_walked");
  }
  return {};
}

}  // namespace hw::month
