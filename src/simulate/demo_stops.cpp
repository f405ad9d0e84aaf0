#include "src/simulate/demo_stops.h"

#include <algorithm>
#include <array>

#include "libs/values/assert.h"
#include "src/catalogue/round.h"
#include "src/service/stop_entries.h"
#include "src/service/stop_plan.h"
#include "src/simulate/demo_people.h"

namespace hw::simulate {
namespace {

using catalogue::EnergyState;
using service::AsFound;
using service::Entry;

// One stop as it is told here.
struct StopStory {
  std::string_view machine = {};
  int days_ahead = 0;  // below zero: so many days ago
  std::size_t shift = 0;
  std::size_t tasks = 3;
  double agreed_days_ago = 2;
  std::size_t left_undone = 0;      // of a stop that is closed
  std::string_view withdrawn = {};  // why; empty: it was not
  std::string_view note = {};
  bool on_saturday = false;  // the first one so many days ahead or later, with tasks that take parts
};

constexpr int stop_saturday = 6;

constexpr std::array<StopStory, 12> stop_stories{{
    {"m01", 2, 0, 4, 3.1, 0, "", "Second pallet stays empty that morning"},
    {"m03", 5, 1, 3, 1.2},
    {"m06", 1, 0, 3, 4.0},
    {"m10", 8, 0, 5, 0.6, 0, "", "Hoist is booked from 07:00"},
    {"m17", -1, 1, 2, 6.3},
    {"m22", 4, 0, 3, 2.4},
    {"m02", -9, 0, 4, 13.2, 1, "", "Seal kit had not come; next time"},
    {"m05", -16, 1, 3, 20.5},
    {"m12", -23, 0, 4, 30.1, 0, "", "Took longer: bolts seized"},
    {"m19", -34, 1, 3, 40.3, 1},
    {"m08", 6, 0, 3, 5.2, 0, "Hot order of pump housings until the end of the week"},
    {demo_saturday_machine, 5, 0, 5, 3.6, 0, "", "Saturday: nothing else runs in the hall", true},
}};

double days_between(const catalogue::CalendarTrigger& trigger) {
  const double count = trigger.every.count;
  if (trigger.every.unit == catalogue::CalendarInterval::Unit::year) return 365 * count;
  return trigger.every.unit == catalogue::CalendarInterval::Unit::month ? 30.4 * count : 7 * count;
}

// How far the first of its intervals is used up since then.
double share_used(const catalogue::Task& task, const Entry& done, const DemoUse& use, Instant now) {
  const auto totals = use.totals_ago(0);
  double share = 0;
  for (const auto& trigger : task.triggers) {
    if (const auto* counter = std::get_if<catalogue::CounterTrigger>(&trigger)) {
      const auto there = done.counters.find(counter->counter);
      const auto here = totals.find(counter->counter);
      if (there == done.counters.end() || here == totals.end()) continue;
      share = std::max(share, (here->second - there->second) / counter->interval);
    } else if (const auto* calendar = std::get_if<catalogue::CalendarTrigger>(&trigger)) {
      const double days = (now - done.happened_at).as_hours() / 24;
      share = std::max(share, days / days_between(*calendar));
    }
  }
  return share;
}

// The tasks for a stop, those that are used up furthest first; what rounds check and what outside service does are not.
std::vector<const catalogue::Task*> tasks_for_stops(const service::MachineRecord& machine,
                                                    const std::vector<Entry>& done, const DemoUse& use, Instant now) {
  std::vector<std::pair<double, const catalogue::Task*>> shares;
  for (const auto& record : machine.tasks) {
    const catalogue::Task& task = record.task;
    const bool is_for_stops = !catalogue::rhythm_of(task) && task.energy != EnergyState::in_production &&
                              task.skill != catalogue::Skill::outside_service;
    const auto entry = std::find_if(done.begin(), done.end(),
                                    [&](const auto& one) { return one.kind == "task done" && one.task == task.key; });
    if (is_for_stops && entry != done.end()) shares.emplace_back(share_used(task, *entry, use, now), &task);
  }
  std::stable_sort(shares.begin(), shares.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<const catalogue::Task*> tasks;
  for (const auto& [share, task] : shares) tasks.push_back(task);
  return tasks;
}

// Tells one story in entries.
class StopTelling {
 public:
  StopTelling(const StopStory& story, const service::ShopRecord& shop, const DemoUse& use, std::uint64_t seed,
              Instant now)
      : story_(story), shop_(shop), use_(use), dice_(mix(seed, hash_of(story.machine))), now_(now) {}

  std::vector<Entry> tell(std::vector<const catalogue::Task*> tasks) {
    const bool is_past = story_.days_ahead < -1;
    if (is_past) std::reverse(tasks.begin(), tasks.end());  // what was done lately is used up least
    if (story_.on_saturday) std::erase_if(tasks, [](const catalogue::Task* task) { return task->parts.empty(); });
    tasks.resize(std::min(tasks.size(), story_.tasks));
    if (tasks.empty()) return {};
    agree(tasks);
    if (!story_.withdrawn.empty()) withdraw();
    if (story_.days_ahead < -1) close(tasks);
    return std::move(told_);
  }

 private:
  Entry entry(std::string_view kind, Instant at, std::string by) {
    Entry entry;
    entry.at = entry.happened_at = Instant::from_millis(at.as_millis());
    entry.device_at = entry.at;
    entry.id = uuid_of(dice_, entry.at);
    entry.kind = kind;
    entry.machine = story_.machine;
    entry.by = std::move(by);
    entry.counters = use_.totals_ago((now_ - entry.at).as_hours() / 24);
    return entry;
  }
  std::string technician() { return somebody(shop_, catalogue::Skill::technician, dice_); }
  Instant ago(double days) const { return now_ - Duration::seconds(static_cast<std::int64_t>(days * 86400)); }

  service::StopPlan plan(const std::vector<const catalogue::Task*>& tasks) const {
    const auto& shifts = shop_.calendar.shifts;
    const std::string shift = shifts.empty() ? "" : shifts[story_.shift % shifts.size()].name;
    LocalDate on = shop_.calendar.zone.date_of(now_) + story_.days_ahead;
    while (story_.on_saturday && iso_weekday(on) != stop_saturday) on = on + 1;
    auto plan = service::plan_of_shift(shop_.calendar, on, shift);
    HW_ASSERT(plan, "the shift is one of the shop's");
    for (const auto* task : tasks) plan->tasks.push_back(service::planned(*task));
    if (story_.days_ahead >= 0) plan->note = story_.note;
    return std::move(*plan);
  }

  void agree(const std::vector<const catalogue::Task*>& tasks) {
    Entry agreed = entry(service::stop_agreed, ago(story_.agreed_days_ago), technician());
    stop_.id = agreed.id;
    stop_.plan = plan(tasks);
    tell_agreed(agreed, stop_.plan);
    told_.push_back(std::move(agreed));
  }

  void withdraw() {
    Entry withdrawn = entry(service::stop_withdrawn, ago(story_.agreed_days_ago / 2), technician());
    tell_withdrawn(withdrawn, stop_, std::string{story_.withdrawn});
    told_.push_back(std::move(withdrawn));
  }

  // An hour into the shift it began; each task took some minutes more or fewer than planned.
  void close(const std::vector<const catalogue::Task*>& tasks) {
    service::StopClose edit;
    edit.note = std::string{story_.note};
    edit.began_at = stop_.plan.begins_at + Duration::hours(1);
    Instant at = edit.began_at + Duration::seconds(20 * 60);
    for (std::size_t i = 0; i + story_.left_undone < tasks.size(); ++i) {
      service::StopDone done;
      done.task = tasks[i]->key;
      done.minutes = tasks[i]->minutes + static_cast<double>(dice_.between(-2, 9));
      done.minutes = std::max(*done.minutes, 1.0);
      if (tasks[i]->work == catalogue::WorkType::replace || tasks[i]->work == catalogue::WorkType::overhaul) {
        done.as_found = static_cast<AsFound>(dice_.between(0, 2));
      }
      at = at + Duration::seconds(static_cast<std::int64_t>(*done.minutes * 60));
      Entry entry_done = entry("task done", at, technician());
      tell_done_in(entry_done, stop_, tasks[i]->title, done);
      told_.push_back(std::move(entry_done));
      edit.done.push_back(std::move(done));
    }
    edit.ended_at = at + Duration::seconds(15 * 60);
    Entry closed = entry(service::stop_closed, edit.ended_at, technician());
    tell_closed(closed, stop_, stop_.plan.tasks, edit);
    told_.push_back(std::move(closed));
  }

  const StopStory& story_;
  const service::ShopRecord& shop_;
  const DemoUse& use_;
  Dice dice_;
  Instant now_;
  service::Stop stop_;
  std::vector<Entry> told_;
};

}  // namespace

std::vector<Entry> demo_stops(const service::MachineRecord& machine, const service::ShopRecord& shop,
                              const DemoUse& use, const std::vector<Entry>& done, std::uint64_t seed, Instant now) {
  std::vector<Entry> all;
  for (const StopStory& story : stop_stories) {
    if (story.machine != machine.machine.key) continue;
    auto told = StopTelling(story, shop, use, seed, now).tell(tasks_for_stops(machine, done, use, now));
    std::move(told.begin(), told.end(), std::back_inserter(all));
  }
  return all;
}

}  // namespace hw::simulate
