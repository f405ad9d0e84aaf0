#pragma once
// From a task as it stands and the use of its counters to its due date.
//
// Each trigger has a due day as a distribution; the task is due with the first of them. Counters of one machine rise
// together, so each quantile of the first is the earliest of the triggers' quantiles (comonotone), and a calendar's day
// is certain. A reading wanders by itself: it is independent of the counters. What is left counts from the beginning of
// today, so that today's use, done or still to come, is one day of the forecast.

#include <functional>
#include <memory>

#include "src/service/forecast_views.h"
#include "src/service/use_forecasts.h"

namespace hw::service {

// The use of a counter by its key; null where there is none.
using UseOf = std::function<const CounterUse*(const std::string& counter)>;
// How much a counter has risen since local midnight.
using UsedToday = std::function<double(const std::string& counter)>;

struct TriggerForecast {
  due::DueQuantiles days{};              // used up
  due::DueQuantiles overdue{};           // the tolerance used up too
  std::optional<double> left;            // of a counter: at the beginning of today
  std::optional<Error> refused = {};     // why there is none
  due::DueDistribution by_reading = {};  // of a reading: whose chances are independent of the counters'
};

TriggerForecast forecast_of(const TriggerView& trigger, LocalDate today, const UseOf& use_of,
                            const UsedToday& used_today);

// The first of several: counters and calendar dates alike, readings independent of them.
due::DueQuantiles first_due(const TaskView& task, LocalDate today, const UseOf& use_of, const UsedToday& used_today);

// The first of several that are alike.
due::DueQuantiles first_of(const std::vector<due::DueQuantiles>& all);

ForecastView forecast_view(const TaskView& task, LocalDate today, const UseOf& use_of, const UsedToday& used_today);

// The checks of each start-up, shift and day are due all the time: they would hide what Floor and Horizon are to show.
bool is_round_check(const TaskView& task);

}  // namespace hw::service
