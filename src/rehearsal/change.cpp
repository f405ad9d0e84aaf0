#include "src/rehearsal/change.h"

namespace hw::rehearsal {
namespace {

void set_length(Interval& interval, double length) {
  if (length < interval.length) interval.heads_up *= length / interval.length;
  interval.length = length;
}

// How many intervals it concerns.
std::size_t apply(ShopYear& shop, const Change& change) {
  std::size_t concerned = 0;
  for (Machine& machine : shop.machines) {
    if (machine.kind != change.kind) continue;
    for (Task& task : machine.tasks) {
      if (task.key != change.task) continue;
      for (Interval& interval : task.intervals) {
        if (interval.counter != change.counter) continue;
        set_length(interval, change.length);
        ++concerned;
      }
    }
  }
  return concerned;
}

}  // namespace

Result<ShopYear> changed(ShopYear shop, std::span<const Change> changes) {
  for (std::size_t n = 0; n < changes.size(); ++n) {
    const Change& one = changes[n];
    if (!(one.length > 0)) {
      return refuse(ErrorCode::bad_input, "changes[{}].interval: {} must be above 0", n, one.length);
    }
    if (apply(shop, one) > 0) continue;
    return refuse(ErrorCode::bad_input,
                  "changes[{}]: no machine of the kind \"{}\" has a task \"{}\" with an interval {}", n, one.kind,
                  one.task, one.counter ? "on " + *one.counter : "in days");
  }
  HW_TRY(check(shop));
  return shop;
}

}  // namespace hw::rehearsal
