#include <algorithm>
#include <array>

#include "src/due/task_state.h"
#include "src/service/make_views.h"
#include "src/service/open_findings.h"
#include "src/service/open_stops.h"
#include "src/service/task_forecast.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

using counters::CounterKey;
using counters::CounterKind;

constexpr int entries_shown = 50;

// The counters of a machine that the Floor shows, in this order.
constexpr std::array floor_counters{CounterKind::powered, CounterKind::operating, CounterKind::spindle,
                                    CounterKind::axis, CounterKind::cutting};

CounterView view_of(const OpenMachine& machine, const CounterNow& counter) {
  const std::string key = print(counter.key);
  CounterView view{.key = key,
                   .title = title_of(counter.key),
                   .unit = std::string{counters::unit_of(counter.key.kind)},
                   .definition = std::string{counters::definition_of(counter.key.kind)},
                   .counted = counter.counted,
                   .unknown_h = counter.unknown_h,
                   .filled = counter.filled,
                   .adjusted = adjusted(machine, key),
                   .total = 0,
                   .today = counter.today,
                   .today_unknown_h = counter.today_unknown_h,
                   .since = {}};
  view.total = view.counted + view.filled + view.adjusted;
  if (const auto since = machine.count.counting_since()) view.since = *since;
  return view;
}

void tally(TallyView& view, const std::string& state) {
  using due::TaskState;
  view.in_hand += state == word_of(TaskState::in_hand);
  view.coming += state == word_of(TaskState::coming);
  view.due += state == word_of(TaskState::due);
  view.overdue += state == word_of(TaskState::overdue);
}

// How urgent a task is: state first, then how far its leading trigger is used up.
std::pair<int, double> urgency(const TaskView& task) {
  constexpr std::array<std::string_view, 4> order{"in hand", "coming", "due", "overdue"};
  const auto state = std::find(order.begin(), order.end(), task.state) - order.begin();
  const auto leading =
      std::find_if(task.triggers.begin(), task.triggers.end(), [](const auto& one) { return one.leads; });
  return {static_cast<int>(state), leading->share_used};
}

std::vector<TaskView> task_views(const OpenShop& shop, const OpenMachine& machine, const CounterTotals& totals,
                                 bool are_retired, Instant now) {
  std::vector<TaskView> views;
  for (const TaskRecord& record : machine.record.tasks) {
    if (record.retired_at.has_value() == are_retired) views.push_back(view_of(shop, machine, record, totals, now));
  }
  return views;
}

DoingView view_of(const Doing& doing) {
  DoingView view{.state = doing.state, .since = {}};
  if (doing.since) view.since = *doing.since;
  return view;
}

void describe(MachineView& view, const MachineRecord& record) {
  view.key = record.machine.key;
  view.name = record.machine.name;
  view.kind = record.machine.kind;
  view.cell = record.machine.cell;
  view.note = record.machine.note;
  view.year = record.machine.year;
  for (const auto& assembly : record.assemblies) view.assemblies.push_back({assembly.key, assembly.title});
  view.points = point_views(record);
  view.walk = walk_of(record);
  view.walk_by_hand = !record.walk.empty();
}

}  // namespace

FeedView feed_view(const FeedStatus& feed) {
  FeedView view{
      .state = feed.state, .last_sign_at = {}, .behind = feed.behind, .says = feed.says, .saying = feed.saying};
  if (feed.last_sign_at) view.last_sign_at = *feed.last_sign_at;
  return view;
}

std::vector<PointView> point_views(const MachineRecord& record) {
  std::vector<PointView> views;
  for (const auto& point : record.points) {
    views.push_back({point.number, point.assembly, point.title, point.x, point.y});
  }
  return views;
}

std::string title_of(const CounterKey& key) {
  std::string title{word_of(key.kind)};
  title[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(title[0])));
  if (counters::unit_of(key.kind) == "h") title += " hours";
  return key.label.empty() ? title : title + ", " + key.label;
}

FloorMachineView floor_view(const OpenShop& shop, const OpenMachine& machine, Instant now) {
  const catalogue::Machine& what = machine.record.machine;
  const MachineNow present = machine.count.at(now);
  FloorMachineView view{.key = what.key,
                        .name = what.name,
                        .kind = what.kind,
                        .cell = what.cell,
                        .doing = view_of(present.doing),
                        .feed = feed_view(machine.feed),
                        .counters = {},
                        .nearest = {},
                        .tally = {},
                        .findings = severities_of(machine),
                        .rounds = standing_views(shop, machine, now),
                        .next_stop = {}};
  if (auto next = next_stop(shop, machine, now)) view.next_stop = *std::move(next);
  for (const CounterKind kind : floor_counters) {
    for (const CounterNow& counter : present.counters) {
      if (counter.key == CounterKey{kind, ""}) view.counters.push_back(view_of(machine, counter));
    }
  }
  for (TaskView& task : task_views(shop, machine, totals_of(machine, present.counters), false, now)) {
    tally(view.tally, task.state);
    if (is_round_check(task)) continue;
    if (!view.nearest || urgency(*view.nearest) < urgency(task)) view.nearest = std::move(task);
  }
  return view;
}

FloorView show_floor(const OpenShop& shop, Instant now) {
  const auto lock = shop.look();
  FloorView view{.now = now, .machines = {}};
  for (const auto& machine : shop.machines()) view.machines.push_back(floor_view(shop, *machine, now));
  return view;
}

Result<FloorMachineView> show_floor_machine(const OpenShop& shop, std::string_view machine, Instant now) {
  const auto lock = shop.look();
  HW_TAKE(found, shop.find(machine));
  return floor_view(shop, *found, now);
}

Result<MachineView> show_machine(const OpenShop& shop, std::string_view key, Instant now) {
  MachineView view;
  {
    const auto lock = shop.look();
    HW_TAKE(machine, shop.find(key));
    describe(view, machine->record);
    const MachineNow present = machine->count.at(now);
    const CounterTotals totals = totals_of(*machine, present.counters);
    view.doing = view_of(present.doing);
    view.feed = feed_view(machine->feed);
    for (const CounterNow& counter : present.counters) view.counters.push_back(view_of(*machine, counter));
    view.tasks = task_views(shop, *machine, totals, false, now);
    view.retired = task_views(shop, *machine, totals, true, now);
    for (const Finding& finding : machine->findings) view.findings.push_back(view_of(finding));
  }
  HW_TAKE(entries, shop.store().entries_of(key, entries_shown));
  for (const Entry& entry : entries) view.entries.push_back(view_of(entry));
  HW_TAKE(readings, shop.store().hour_readings_of(key));
  for (const HourReading& reading : readings) view.hour_readings.push_back(view_of(reading));
  return view;
}

}  // namespace hw::service
