#pragma once
// A place's clock: which local day a moment belongs to, and when that day begins. Rules from the system's tzdata.

#include <string>
#include <string_view>

#include "libs/values/instant.h"
#include "libs/values/local_date.h"

namespace date {
class time_zone;
}

namespace hw {

class Zone {
 public:
  // An IANA name such as "Europe/Berlin" or "UTC". Refuses unknown names.
  static Result<Zone> find(std::string_view name);
  static Zone utc();

  std::string name() const;
  LocalDate date_of(Instant instant) const;
  // The first moment of the day: local midnight, or the first moment after it where midnight is skipped.
  Instant begin_of(LocalDate date) const;
  // The first moment of the next local day; 23, 24 or 25 h after begin_of.
  Instant end_of(LocalDate date) const { return begin_of(date + 1); }
  // Local wall time to UTC: minutes from local midnight by the clock on the wall. A time that is skipped counts as the
  // moment of the jump; one that comes twice as its first.
  Instant at(LocalDate date, int minute_of_day) const;
  // Minutes east of UTC at that moment.
  int offset_minutes(Instant instant) const;

 private:
  explicit Zone(const date::time_zone* rules) : rules_(rules) {}
  const date::time_zone* rules_;
};

}  // namespace hw
