#include "src/service/rehearsals.h"

#include <algorithm>
#include <chrono>

#include "src/rehearsal/change.h"
#include "src/rehearsal/playing.h"

namespace hw::service {
namespace {

constexpr std::size_t years_at_a_time = 10;
constexpr std::chrono::milliseconds time_max{2000};

struct BothYears {
  std::vector<rehearsal::Outcome> present, changed;
};

Result<void> check(const RehearsalEdit& edit) {
  const int years = edit.years.value_or(rehearsal_years_usual);
  if (years < rehearsal_years_min || years > rehearsal_years_max) {
    return refuse(ErrorCode::bad_input, "years: {} must be {} to {}", years, rehearsal_years_min, rehearsal_years_max);
  }
  if (edit.changes.empty()) return refuse(ErrorCode::bad_input, "changes: name one at least");
  return {};
}

std::vector<rehearsal::Change> changes_of(const RehearsalEdit& edit) {
  std::vector<rehearsal::Change> changes;
  for (const auto& one : edit.changes) changes.push_back({one.kind, one.task, one.counter, one.interval});
  return changes;
}

// The same years of both, a few at a time, until there are `count` or the time is over.
BothYears play_both(const rehearsal::ShopYear& present, const rehearsal::ShopYear& changed, std::uint64_t seed,
                    std::size_t count) {
  const rehearsal::Playing of_present(present), of_changed(changed);
  rehearsal::YearDesk present_desk(of_present), changed_desk(of_changed);
  BothYears years;
  const auto began = std::chrono::steady_clock::now();
  while (years.present.size() < count && std::chrono::steady_clock::now() - began < time_max) {
    const std::size_t first = years.present.size();
    const std::size_t more = std::min(years_at_a_time, count - first);
    years.present.resize(first + more);
    years.changed.resize(first + more);
    of_present.play({seed, first}, std::span(years.present).subspan(first), present_desk);
    of_changed.play({seed, first}, std::span(years.changed).subspan(first), changed_desk);
  }
  return years;
}

}  // namespace

Result<RehearsalView> Rehearsals::play(const RehearsalEdit& edit, Instant now) {
  HW_TRY(check(edit));
  const std::unique_lock turn(turn_, std::try_to_lock);
  if (!turn) {
    return refuse(ErrorCode::conflict, Saying{"rehearsal-running"}, "years are being played for somebody else already");
  }
  HW_TAKE(lives, believed_parts(studies_, now));
  HW_TAKE(ahead, year_ahead(shop_, forecasts_, lives, now));
  HW_TRY(rehearsal::check(ahead.shop));
  HW_TAKE(changed, rehearsal::changed(ahead.shop, changes_of(edit)));
  RehearsalView view;
  view.currency = shop_.record().stopping.currency;
  view.seed = edit.seed.value_or(1);
  const auto count = static_cast<std::size_t>(edit.years.value_or(rehearsal_years_usual));
  const BothYears years = play_both(ahead.shop, changed, static_cast<std::uint64_t>(view.seed), count);
  view.years = static_cast<int>(years.present.size());
  view.machines = static_cast<int>(ahead.shop.machines.size());
  for (const auto& machine : ahead.shop.machines) view.tasks += static_cast<int>(machine.tasks.size());
  view.parts = ahead.parts;
  view.without_use = ahead.without_use;
  view.present = spread_of(years.present);
  view.changed = spread_of(years.changed);
  const rehearsal::Difference difference = difference_of(years.present, years.changed);
  view.difference = difference.spread;
  view.cheaper = difference.cheaper;
  view.same_cost = difference.same_cost;
  return view;
}

}  // namespace hw::service
