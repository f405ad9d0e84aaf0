#pragma once
// Another interval for a task of a kind of machine.

#include <optional>
#include <span>
#include <string>

#include "src/rehearsal/shop_year.h"

namespace hw::rehearsal {

struct Change {
  std::string kind;
  std::string task;
  std::optional<std::string> counter;  // nothing: the interval in days of the calendar
  double length = 0;                   // above 0, in the unit of the counter, or days
};

// The shop with these intervals on all machines of the kinds. What was used of an interval stays used; a heads-up
// shrinks with an interval that becomes shorter. Errors: bad_input for a change that no machine has a
// task for, or that is none (changes[1]: ...), and what check() refuses.
Result<ShopYear> changed(ShopYear shop, std::span<const Change> changes);

}  // namespace hw::rehearsal
