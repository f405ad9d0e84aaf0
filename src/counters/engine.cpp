#include "src/counters/engine.h"

#include <limits>
#include <utility>

#include "libs/values/assert.h"

namespace hw::counters {

Engine::Engine(std::shared_ptr<const MachineModel> model, CountSettings settings, MeterUse use,
               std::vector<bool> present)
    : ties_(model->items.size()),
      motion_(model->items),
      meter_(std::move(model), std::move(settings), use, std::move(present)),
      moment_at_{std::numeric_limits<std::int64_t>::min()} {}

// Once a feed rate is known, positions are no longer looked at: what waits goes on, in order.
void Engine::close_moment(Instant next_at) {
  HW_ASSERT(next_at >= moment_at_, "an engine takes observations in order of time");
  const auto next = [this](Instant at, std::span<const Observation> changes) { meter_.settle(at, changes); };
  if (!ties_.settled().empty()) {
    if (meter_.motion_from_positions()) {
      motion_.settle(moment_at_, ties_.settled(), next);
    } else {
      if (!motion_.is_empty()) motion_.drain(next);
      meter_.settle(moment_at_, ties_.settled());
    }
  }
  ties_.clear();
  moment_at_ = next_at;
}

void Engine::drain() {
  close_moment(moment_at_);
  motion_.drain([this](Instant at, std::span<const Observation> changes) { meter_.settle(at, changes); });
}

}  // namespace hw::counters
