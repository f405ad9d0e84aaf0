#include "src/simulate/demo_record.h"

#include <algorithm>

#include "src/simulate/dice.h"

namespace hw::simulate {
namespace {

using catalogue::CalendarInterval;
using catalogue::CalendarTrigger;
using catalogue::CounterTrigger;

constexpr int minute_of_work = 10 * 60 + 30;

std::string uuid_of(Dice& dice, Instant at) {
  const auto ms = static_cast<std::uint64_t>(at.as_millis());
  return fmt::format("{:08x}-{:04x}-7{:03x}-8{:03x}-{:012x}", ms >> 16, ms & 0xffff, dice.next() & 0xfff,
                     dice.next() & 0xfff, dice.next() & 0xffffffffffff);
}

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
    const auto* counter = std::get_if<CounterTrigger>(&trigger);
    days = std::min(days, counter ? use.days_since(counter->counter, share * counter->interval)
                                  : share * days_of(std::get<CalendarTrigger>(trigger).every));
  }
  return days;
}

bool is_of_each_shift_or_day(const catalogue::Task& task) {
  return std::any_of(task.triggers.begin(), task.triggers.end(), [](const auto& trigger) {
    const auto* calendar = std::get_if<CalendarTrigger>(&trigger);
    return calendar && days_of(calendar->every) <= 1;
  });
}

// Checks of each shift are made a quarter of an hour into it; one in eight was left out in the shift that runs.
Instant checked_at(const catalogue::PlantCalendar& calendar, Dice& dice, Instant now) {
  const Duration into = Duration::seconds(dice.between(600, 1500));
  auto turn = calendar.turn_at_or_before(now - into);
  if (turn && dice.between(1, 8) == 1) turn = calendar.turn_at_or_before(turn->begins_at - Duration::seconds(1));
  return turn ? turn->begins_at + into : now - Duration::hours(2);
}

Instant done_at(const catalogue::Task& task, const service::ShopRecord& shop, const DemoUse& use, Dice& dice,
                Instant now) {
  if (is_of_each_shift_or_day(task)) return checked_at(shop.calendar, dice, now);
  const double days = days_ago(task, use, static_cast<double>(share_used_per_mille(dice)) / 1000);
  const LocalDate day = shop.calendar.zone.date_of(now) - static_cast<int>(days);
  const Instant at = shop.calendar.zone.at(day, minute_of_work + static_cast<int>(dice.between(-120, 240)));
  return std::min(at, now - Duration::seconds(600));
}

const std::string& somebody(const service::ShopRecord& shop, catalogue::Skill skill, Dice& dice) {
  std::vector<const catalogue::Person*> able;
  for (const auto& person : shop.people) {
    if (person.skill == skill) able.push_back(&person);
  }
  static const std::string nobody = "somebody";
  if (able.empty()) return nobody;
  return able[static_cast<std::size_t>(dice.between(0, static_cast<std::int64_t>(able.size()) - 1))]->name;
}

}  // namespace

std::vector<service::Entry> demo_entries(const service::MachineRecord& machine, const service::ShopRecord& shop,
                                         const DemoUse& use, std::uint64_t seed, Instant now) {
  std::vector<service::Entry> entries;
  for (const auto& record : machine.tasks) {
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
    entry.says = fmt::format("{}: done", record.task.title);
    entry.counters = use.totals_ago((now - entry.at).as_hours() / 24);
    entries.push_back(std::move(entry));
  }
  return entries;
}

}  // namespace hw::simulate
