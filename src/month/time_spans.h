#pragma once
// Spans of time that may overlap: a machine that stands for two failures at once stands once. Each from `begins_at` to
// just before `ends_at`.

#include <vector>

#include "libs/values/instant.h"

namespace hw::month {

struct TimeSpan {
  Instant begins_at;
  Instant ends_at;
  bool operator==(const TimeSpan&) const = default;
};
using TimeSpans = std::vector<TimeSpan>;

// In order of time, none touching another, none empty.
TimeSpans united(TimeSpans spans);
// What of them lies within one. United.
TimeSpans within(const TimeSpans& spans, const TimeSpan& one);
// What is in both, and what is in the first alone. United.
TimeSpans overlap(const TimeSpans& a, const TimeSpans& b);
TimeSpans without(const TimeSpans& a, const TimeSpans& b);

// Of united spans; hours.
double hours_of(const TimeSpans& spans);

}  // namespace hw::month
