#pragma once
// One line for each reading of a machine, and which of them have to be decided about today. The caller holds a lock on
// the shop.

#include "src/service/open_shop.h"
#include "src/service/reading_views.h"

namespace hw::service {

ReadingCrossingView view_of(const LimitCrossing& crossing);

Result<ReadingLineView> reading_line(const OpenShop& shop, const OpenMachine& machine, const catalogue::Task& task,
                                     const catalogue::TaskReading& reading);

// Of all tasks that are not retired, in their order.
Result<std::vector<ReadingLineView>> reading_lines(const OpenShop& shop, const OpenMachine& machine);

// Those that are beyond an action limit, or whose trend is clear (p up to pressing_p_max: many readings are looked at
// each morning) and meets its next limit within `days_ahead` more likely than not, and of which no open finding speaks:
// neither at their check nor with their task.
inline constexpr int reading_days_ahead = 30;
inline constexpr double pressing_p_max = 0.01;
Result<std::vector<ReadingLineView>> pressing_readings(const OpenShop& shop, const OpenMachine& machine,
                                                       LocalDate today);

}  // namespace hw::service
