#include "src/service/machine_month.h"

#include "src/service/round_standing.h"

namespace hw::service {
namespace {

void add_hours(month::MonthSums& sums, const MonthHours& hours) {
  for (const DayHours& day : hours.days) {
    sums.operating_h += day.operating_h;
    sums.powered_h += day.powered_h;
    sums.unknown_h += day.unknown_h;
    sums.powered_unknown_h += day.powered_unknown_h;
  }
}

bool is_over(const due::TurnStanding& turn) {
  return turn.state != due::TurnState::ahead && turn.state != due::TurnState::open;
}

Result<void> add_turns(month::MonthSums& sums, const OpenShop& shop, const OpenMachine& machine, const MonthSpan& span,
                       Instant now) {
  // Walks are read from early enough on that one which began before the month's first turn is among them.
  const Duration back = now - span.time.begins_at + due::early_max;
  HW_TAKE(walks, shop.store().latest_walks_of(machine.record.machine.key, back));
  const auto lock = shop.look();
  for (const catalogue::Rhythm rhythm : rhythms_of(machine)) {
    const due::TimeSpan time{span.time.begins_at, span.time.ends_at};
    for (const due::TurnStanding& turn : turns_within(shop.calendar(), machine, rhythm, walks, time, now)) {
      if (!is_over(turn)) continue;
      ++sums.turns;
      if (turn.state == due::TurnState::walked) ++sums.turns_walked;
    }
  }
  return {};
}

}  // namespace

Result<MachineMonth> machine_month(const OpenShop& shop, const OpenMachine& machine, const MonthSpan& span,
                                   Instant now) {
  HW_TAKE(hours, hours_in(shop, machine, span, now));
  HW_TAKE(standing, standing_in(shop, machine, span));
  HW_TAKE(tasks, tasks_in(shop, machine, span, hours));
  MachineMonth out{.sums = {}, .hours = std::move(hours), .standing = std::move(standing), .tasks = std::move(tasks)};
  const catalogue::Stopping& stopping = shop.record().stopping;
  out.sums.machines = 1;
  add_hours(out.sums, out.hours);
  add_standing(out.sums, out.standing, out.hours, planned_in(shop.calendar(), span),
               machine.record.machine.standing_per_hour.value_or(stopping.standing_per_hour));
  add_tasks_done(out.sums, out.tasks, stopping.labour_per_hour);
  HW_TRY(add_turns(out.sums, shop, machine, span, now));
  return out;
}

}  // namespace hw::service
