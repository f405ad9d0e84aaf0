#pragma once
// What a reading does over the days on which it was read: whether it holds, rises or falls, what of it is out of the
// ordinary, and when it meets its limits.
//
// One value a day: readings of one day lie so close that they would count one observation several times, and all that
// is computed here takes values for independent. A day's value is the median of its readings. Only the latest forty
// such days count: what a gauge showed long ago says little of where it goes now, and what is read each quarter still
// has ten years.
//
//   trend      Mann-Kendall, two-sided; the slope is that of Theil and Sen, per day     (src/condition)
//   chart      individual values and moving ranges; rules for runs and clusters told beside
//   crossings  first passage of a value that drifts and scatters                        (reading_crossing.h)

#include <vector>

#include "src/catalogue/task.h"
#include "src/condition/individuals_chart.h"
#include "src/condition/mann_kendall.h"
#include "src/condition/sen_slope.h"
#include "src/condition/zone_rules.h"
#include "src/due/reading_crossing.h"

namespace hw::due {

inline constexpr std::size_t trend_days_max = 40;
// A trend is called one from this two-sided p downward (own choice: one false word in twenty), where the slope goes the
// same way: of a needle that rests but for one step the slope is 0.
inline constexpr double trend_p_max = 0.05;

// The days in order, each with the median of its readings; the latest trend_days_max of them. Readings in any order.
std::vector<DatedReading> days_of(const std::vector<DatedReading>& readings);

enum class ReadingDirection { none_seen, rising, falling };

struct ReadingTrend {
  condition::IndividualsChart chart;
  std::vector<condition::ZoneCall> calls;  // points are days, from 1
  condition::SenSlope sen;                 // in units a day; x is days since the first
  condition::MannKendall kendall;
  double p = 1;  // two-sided: twice the exact one-sided up to ten days, else the normal approximation
  ReadingDirection direction = ReadingDirection::none_seen;
};

// `days` as days_of gives them. Refuses fewer than crossing_readings_min days, and values that are all alike: a needle
// that never moves has no scatter to hold anything against.
Result<ReadingTrend> trend_of(const std::vector<DatedReading>& days);

using catalogue::LimitKind;

struct ReadingLimit {
  LimitKind kind = LimitKind::warning;
  condition::LimitSide side = condition::LimitSide::below;  // a value beyond it is below, or above
  double at = 0;                                            // in the reading's unit
};

// From the lowest to the highest.
std::vector<ReadingLimit> limits_of(const catalogue::TaskReading& reading);

// A value on a limit is within it.
bool is_beyond(const ReadingLimit& limit, double value);

}  // namespace hw::due
