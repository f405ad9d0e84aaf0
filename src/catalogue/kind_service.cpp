#include "src/catalogue/kind_service.h"

#include <algorithm>

namespace hw::catalogue {

bool is_done_alone(WorkType work, EnergyState energy) {
  return energy == EnergyState::powered_at_rest && (work == WorkType::adjust || work == WorkType::measure);
}

double standing_minutes(const std::vector<Task>& tasks, int people) {
  double standing = 0;
  for (const EnergyState state : {EnergyState::powered_at_rest, EnergyState::isolated}) {
    double shared = 0, longest = 0;
    for (const Task& task : tasks) {
      if (task.energy != state) continue;
      if (is_done_alone(task.work, state)) {
        standing += task.minutes;
        continue;
      }
      shared += task.minutes;
      longest = std::max(longest, task.minutes);
    }
    standing += std::max(longest, shared / people);
  }
  return standing;
}

}  // namespace hw::catalogue
