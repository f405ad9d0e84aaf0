#include "src/simulate/demo_lives.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "src/life/weibull.h"
#include "src/service/entry_making.h"
#include "src/simulate/demo_people.h"

namespace hw::simulate {
namespace {

using service::AsFound;
using service::Entry;

struct LifeStory {
  std::string_view kind;
  std::string_view task;
  life::Weibull life;  // on the counter of the task's first trigger
};

constexpr std::array<LifeStory, 6> life_stories{{
    {"horizontal-mill", "coolant-filter-high", {3.0, 850}},   // replaced too early
    {"five-axis-mill", "coolant-band", {3.8, 300}},           // about right
    {"cylindrical-grinder", "filter-hydraulic", {3.4, 950}},  // replaced too late
    {"vertical-mill", "air-elements", {1.0, 9000}},           // does not wear out
    {"vertical-mill", "wipers-new", {2.6, 5200}},             // few lives yet
    {"lathe", "slide-wipers-new", {2.6, 6000}},
}};

constexpr int told_back_most = 30;
constexpr double worn_from = 0.6;  // of its true life

// Tells one machine's one part backwards from the doing that is there already.
class LifeTelling {
 public:
  LifeTelling(const LifeStory& story, std::string machine, const catalogue::Task& task, const service::ShopRecord& shop,
              const DemoUse& use, Dice dice, Instant now)
      : story_(story),
        machine_(std::move(machine)),
        task_(task),
        trigger_(*catalogue::first_counter(task)),
        shop_(shop),
        use_(use),
        dice_(dice),
        total_now_(total(use.totals_ago(0))),
        now_(now) {}

  std::vector<Entry> tell(Entry& last) {
    std::vector<Entry> told;
    Entry* ended = &last;
    told.reserve(told_back_most);
    while (told.size() < told_back_most) {
      const auto [age, found] = end_of_life();
      const double began = total(ended->counters) - age;
      if (began <= 0) break;
      const double days = use_.days_since(trigger_.counter, total_now_ - began);
      if (days >= DemoUse::days_max) break;
      say_found(*ended, found);
      told.push_back(entry(days));
      ended = &told.back();
    }
    return told;
  }

 private:
  struct End {
    double age = 0;
    AsFound found = AsFound::good;
  };

  double total(const service::CounterTotals& totals) const {
    const auto there = totals.find(trigger_.counter);
    return there == totals.end() ? 0 : there->second;
  }

  // Replaced a little before or after its interval, unless it failed before.
  End end_of_life() {
    const double share = static_cast<double>(dice_.between(1, 999'999)) / 1'000'000;
    const double life = life::quantile(story_.life, share);
    const double planned = trigger_.interval * static_cast<double>(dice_.between(920, 1040)) / 1000;
    if (life < planned) return {life, AsFound::failed};
    return {planned, planned > worn_from * life ? AsFound::worn : AsFound::good};
  }

  void say_found(Entry& entry, AsFound found) const {
    entry.body.doing = service::TaskDoing{.as_found = found};
    tell_done(entry, task_.title, found);
  }

  // In the hours in which people are there.
  Entry entry(double days_ago) {
    const auto& zone = shop_.calendar.zone;
    const LocalDate on = zone.date_of(now_ - Duration::seconds(static_cast<std::int64_t>(days_ago * 86'400)));
    Entry entry;
    entry.at = zone.at(on, static_cast<int>(dice_.between(6 * 60 + 20, 20 * 60)));
    entry.device_at = entry.happened_at = entry.at;
    entry.id = uuid_of(dice_, entry.at);
    entry.kind = "task done";
    entry.machine = machine_;
    entry.task = task_.key;
    entry.by = somebody(shop_, task_.skill, dice_);
    entry.counters = use_.totals_ago((now_ - entry.at).as_hours() / 24);
    tell_done(entry, task_.title, {});
    return entry;
  }

  const LifeStory& story_;
  std::string machine_;
  const catalogue::Task& task_;
  const catalogue::CounterTrigger& trigger_;
  const service::ShopRecord& shop_;
  const DemoUse& use_;
  Dice dice_;
  double total_now_;
  Instant now_;
};

}  // namespace

std::vector<Entry> demo_lives(const service::MachineRecord& machine, const service::ShopRecord& shop,
                              const DemoUse& use, std::vector<Entry>& done, std::uint64_t seed, Instant now) {
  std::vector<Entry> all;
  for (const LifeStory& story : life_stories) {
    if (machine.machine.kind != story.kind) continue;
    const auto is_its_task = [&](const auto& record) { return record.task.key == story.task; };
    const auto record = std::find_if(machine.tasks.begin(), machine.tasks.end(), is_its_task);
    const auto last = std::find_if(done.begin(), done.end(), [&](const Entry& entry) {
      return entry.kind == "task done" && entry.task == story.task;
    });
    if (record == machine.tasks.end() || last == done.end() || !catalogue::first_counter(record->task)) continue;
    const std::string& key = machine.machine.key;
    Dice dice(mix(seed, hash_of(key + "/" + record->task.key + "/lives")));
    LifeTelling telling(story, key, record->task, shop, use, dice, now);
    auto told = telling.tell(*last);
    std::move(told.begin(), told.end(), std::back_inserter(all));
  }
  return all;
}

}  // namespace hw::simulate
