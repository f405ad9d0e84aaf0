#include "src/plan/slot_choice.h"

#include <algorithm>

namespace hw::plan {
namespace {

constexpr std::size_t days_near = 7;

}  // namespace

int SlotChoice::anywhere(int machine, numerics::Random& random) const {
  const std::vector<float>& sums = (*weights_)[static_cast<std::size_t>(machine)];
  const float at = static_cast<float>(random.uniform()) * sums.back();
  return static_cast<int>(std::upper_bound(sums.begin(), sums.end() - 1, at) - sums.begin());
}

// The days of each shift lie together, so what they weigh is a difference of two sums.
int SlotChoice::near(int machine, int slot, numerics::Random& random) const {
  const std::vector<float>& sums = (*weights_)[static_cast<std::size_t>(machine)];
  const std::size_t day = model_->day_of(static_cast<std::size_t>(slot));
  const std::size_t first = day - std::min(day, days_near);
  const std::size_t last = std::min(model_->days - 1, day + days_near);
  const auto before = [&](std::size_t shift) {
    const std::size_t at = shift * model_->days + first;
    return at > 0 ? sums[at - 1] : 0;
  };
  const auto weight = [&](std::size_t shift) { return sums[shift * model_->days + last] - before(shift); };
  float all = 0;
  for (std::size_t shift = 0; shift < model_->shifts; ++shift) all += weight(shift);
  float at = static_cast<float>(random.uniform()) * all;
  std::size_t shift = 0;
  for (; shift + 1 < model_->shifts && at >= weight(shift); ++shift) at -= weight(shift);
  const auto begin = sums.begin() + static_cast<std::ptrdiff_t>(shift * model_->days);
  const auto found = std::upper_bound(begin + static_cast<std::ptrdiff_t>(first),
                                      begin + static_cast<std::ptrdiff_t>(last), before(shift) + at);
  return static_cast<int>(found - sums.begin());
}

}  // namespace hw::plan
