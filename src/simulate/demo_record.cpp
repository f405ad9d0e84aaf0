#include "src/simulate/demo_record.h"

#include <algorithm>

#include "src/catalogue/round.h"
#include "src/simulate/demo_people.h"
#include "src/simulate/demo_rounds.h"

namespace hw::simulate {
namespace {

using catalogue::CalendarInterval;
using catalogue::CalendarTrigger;
using catalogue::CounterTrigger;

constexpr int minute_of_work = 10 * 60 + 30;

// How far its interval is used up, in thousandths: of a thousand tasks some six overdue, fourteen due, fifty coming.
std::int64_t share_used_per_mille(Dice& dice) {
  const auto drawn = dice.between(1, 1000);
  if (drawn <= 6) return dice.between(1080, 1250);
  if (drawn <= 20) return dice.between(1000, 1030);
  if (drawn <= 70) return dice.between(920, 990);
  return dice.between(20, 890);
}

double days_of(const CalendarInterval& every) {
  switch (every.unit) {
    case CalendarInterval::Unit::shift:
      return 0.5 * every.count;
    case CalendarInterval::Unit::start_up:
    case CalendarInterval::Unit::day:
      return every.count;
    case CalendarInterval::Unit::week:
      return 7.0 * every.count;
    case CalendarInterval::Unit::month:
      return 30.4 * every.count;
    case CalendarInterval::Unit::year:
      return 365.0 * every.count;
  }
  return 1;
}

// So many days ago its first trigger was at zero if it is used up by that share now.
double days_ago(const catalogue::Task& task, const DemoUse& use, double share) {
  double days = DemoUse::days_max;
  for (const auto& trigger : task.triggers) {
    if (const auto* counter = std::get_if<CounterTrigger>(&trigger)) {
      days = std::min(days, use.days_since(counter->counter, share * counter->interval));
    } else if (const auto* calendar = std::get_if<CalendarTrigger>(&trigger)) {
      days = std::min(days, share * days_of(calendar->every));
    }
  }
  return days;
}

Instant done_at(const catalogue::Task& task, const service::ShopRecord& shop, const DemoUse& use, Dice& dice,
                Instant now) {
  const double days = days_ago(task, use, static_cast<double>(share_used_per_mille(dice)) / 1000);
  const LocalDate day = shop.calendar.zone.date_of(now) - static_cast<int>(days);
  const Instant at = shop.calendar.zone.at(day, minute_of_work + static_cast<int>(dice.between(-120, 240)));
  return std::min(at, now - Duration::seconds(600));
}

}  // namespace

std::vector<service::Entry> demo_entries(const service::MachineRecord& machine, const service::ShopRecord& shop,
                                         const DemoUse& use, std::uint64_t seed, Instant now) {
  std::vector<service::Entry> entries;
  for (const auto& record : machine.tasks) {
    if (catalogue::rhythm_of(record.task)) continue;  // done by walking its round
    Dice dice(mix(seed, hash_of(machine.machine.key + "/" + record.task.key)));
    service::Entry entry;
    entry.at = done_at(record.task, shop, use, dice, now);
    entry.device_at = entry.at;
    entry.happened_at = entry.at;
    entry.id = uuid_of(dice, entry.at);
    entry.kind = "task done";
    entry.machine = machine.machine.key;
    entry.task = record.task.key;
    entry.by = somebody(shop, record.task.skill, dice);
    entry.body.title = record.task.title;
    entry.says = fmt::format("{}: done", record.task.title);
    entry.counters = use.totals_ago((now - entry.at).as_hours() / 24);
    entries.push_back(std::move(entry));
  }
  auto rounds = demo_rounds(machine, shop, use, seed, now);
  std::move(rounds.begin(), rounds.end(), std::back_inserter(entries));
  return entries;
}

}  // namespace hw::simulate
