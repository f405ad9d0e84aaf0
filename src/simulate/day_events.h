#pragma once
// A day's script as its feed tells it: values when they change, nothing while the feed is away, everything anew when it
// is back, stamps by the machine's own clock.

#include <vector>

#include "src/simulate/machine_story.h"

namespace hw::simulate {

struct DayEvents {
  std::vector<double> at_begin;  // what each item says as the day begins
  std::vector<Event> events;
};

DayEvents events_of(const Machine& machine, const DayScript& script, FeedQuality quality, Detail detail);

}  // namespace hw::simulate
