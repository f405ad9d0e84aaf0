#include <algorithm>

#include "src/due/task_state.h"
#include "src/service/lives.h"
#include "src/service/machine_uses.h"
#include "src/service/make_views.h"
#include "src/service/open_findings.h"
#include "src/service/open_stops.h"
#include "src/service/overdue_since.h"
#include "src/service/reading_lines.h"
#include "src/service/round_standing.h"
#include "src/service/today_stores.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

constexpr int days_ahead = 7;
constexpr Duration silence_worth_saying = Duration::hours(1);

// How pressing an item is: the rank of its kind, and among equals the amount. Whoever decides first loses least.
struct Pressing {
  int rank = 0;       // lower: sooner
  double amount = 0;  // higher: sooner
};

struct Item {
  Pressing pressing;
  TodayItemView view;
};

struct Moment {
  const OpenShop& shop;
  LocalDate today;
  Instant now;
};

TodayItemView item(std::string kind, const OpenMachine& machine) {
  TodayItemView view;
  view.kind = std::move(kind);
  view.machine = machine.record.machine.key;
  return view;
}

// Those that stop a machine, have nobody, or should have been settled by now.
void add_findings(std::vector<Item>& items, const OpenMachine& machine, const Moment& at) {
  for (const Finding& finding : machine.findings) {
    const bool is_severe = finding.severity <= Severity::before_next_shift;
    const bool is_late = finding.due_on && *finding.due_on <= at.today;
    if (!is_severe && !is_late && finding.owner) continue;
    TodayItemView view = item("finding", machine);
    view.finding = view_of(finding);
    const int rank = finding.severity == Severity::stop_the_machine ? 0 : is_severe || is_late ? 2 : 3;
    items.push_back({{rank, (at.now - finding.at).as_hours()}, std::move(view)});
  }
}

// Overdue and due ones, and those that fall due within the week more likely than not.
bool is_near(const TaskView& task, const ForecastView& forecast, LocalDate today) {
  if (task.state == word_of(due::TaskState::overdue) || task.state == word_of(due::TaskState::due)) return true;
  return forecast.median && *forecast.median <= today + days_ahead;
}

int rank_of(const TaskView& task) {
  if (task.state == word_of(due::TaskState::overdue)) return 1;
  return task.state == word_of(due::TaskState::due) ? 5 : 7;
}

double share_of(const TaskView& task) {
  const auto leading =
      std::find_if(task.triggers.begin(), task.triggers.end(), [](const auto& one) { return one.leads; });
  return leading == task.triggers.end() ? 0 : leading->share_used;
}

void add_tasks(std::vector<Item>& items, const OpenMachine& machine, const UseByCounter& uses, const Moment& at) {
  const MachineNow present = machine.count.at(at.now);
  const CounterTotals totals = totals_of(machine, present.counters);
  const UsedToday used_today = used_today_in(present.counters);
  for (const TaskRecord& record : machine.record.tasks) {
    if (record.retired_at) continue;
    TaskView task = view_of(at.shop, machine, record, totals, at.now);
    if (is_round_check(task)) continue;
    ForecastView forecast = forecast_view(task, at.today, use_in(uses), used_today);
    if (!is_near(task, forecast, at.today)) continue;
    TodayItemView view = item("task", machine);
    view.overdue_since = overdue_since(task, at.today, use_in(uses), used_today);
    const Pressing pressing{rank_of(task), share_of(task)};
    view.forecast = std::move(forecast);
    view.task = std::move(task);
    items.push_back({pressing, std::move(view)});
  }
}

// A feed that is lost, or that has said nothing for an hour: its counters stand still, and nobody knows the hours.
void add_counter(std::vector<Item>& items, const OpenMachine& machine, const Moment& at) {
  const FeedStatus& feed = machine.feed;
  if (feed.state != "lost") return;
  if (feed.last_sign_at && at.now - *feed.last_sign_at < silence_worth_saying) return;
  TodayItemView view = item("counter", machine);
  view.feed = feed_view(feed);
  view.silent_since = feed.last_sign_at;
  const double hours = feed.last_sign_at ? (at.now - *feed.last_sign_at).as_hours() : 0;
  items.push_back({{4, hours}, std::move(view)});
}

void add_round(std::vector<Item>& items, const OpenMachine& machine, catalogue::Rhythm rhythm, const Moment& at) {
  const RoundStanding standing = round_standing(at.shop.calendar(), machine, rhythm, at.now);
  if (!standing.now) return;
  const due::TurnStanding& turn = standing.turns[*standing.now];
  if (turn.state != due::TurnState::open) return;
  TodayItemView view = item("round", machine);
  view.rhythm = word_of(rhythm);
  view.turn = turn_view(standing, turn);
  const double left_h = (turn.turn.ends_at - at.now).as_hours();
  items.push_back({{6, -left_h}, std::move(view)});
}

// A stop whose shift is over and of which nobody said how it went; one of today, and one of tomorrow.
void add_stops(std::vector<Item>& items, const OpenMachine& machine, const Moment& at) {
  for (const Stop& stop : machine.stops) {
    if (stop.plan.on > at.today + 1) continue;
    const bool is_over = stop.plan.ends_at <= at.now;
    TodayItemView view = item("stop", machine);
    view.stop = view_of(at.shop, stop);
    const int rank = is_over ? 2 : stop.plan.on <= at.today ? 3 : 6;
    items.push_back({{rank, (at.now - stop.plan.begins_at).as_hours()}, std::move(view)});
  }
}

// What is beyond its action limit ranks with severe findings: nobody has made one of it yet. What will meet a limit
// ranks with what is due soon, the nearest first.
Result<void> add_readings(std::vector<Item>& items, const OpenMachine& machine, const Moment& at) {
  HW_TAKE(lines, pressing_readings(at.shop, machine, at.today));
  for (ReadingLineView& line : lines) {
    TodayItemView view = item("reading", machine);
    const bool is_ahead = line.crossing && line.last && line.last->state != "action";
    const Pressing pressing = is_ahead ? Pressing{5, 1.0 * (at.today - *line.crossing->median)} : Pressing{2, 0};
    view.reading = std::move(line);
    items.push_back({pressing, std::move(view)});
  }
  return {};
}

Result<void> add_strays(std::vector<Item>& items, const OpenShop& shop) {
  HW_TAKE(count, shop.store().stray_count());
  if (count == 0) return {};
  TodayItemView view;
  view.kind = "stray";
  view.count = static_cast<int>(count);
  items.push_back({{3, static_cast<double>(count)}, std::move(view)});
  return {};
}

// Work is lost from the day on which the computer dies: with what is late.
void add_copies(std::vector<Item>& items, const copies::CopyState& state, Instant now) {
  const copies::Concern concern = concern_of(state, now);
  if (concern == copies::Concern::none) return;
  TodayItemView view;
  view.kind = "copies";
  view.copies = CopiesView{concern, {}, {}};
  if (state.last_good) view.copies->last_good_at = state.last_good->made_at;
  if (!state.trouble.empty()) view.copies->says = state.trouble;
  items.push_back({{3, 0}, std::move(view)});
}

// The dearest first.
Result<void> add_intervals(std::vector<Item>& items, UseForecasts& forecasts, PartStudies& studies, Instant now) {
  HW_TAKE(all, studies.all(now));
  for (const auto& study : all) {
    if (!is_worth_saying(*study)) continue;
    HW_TAKE(use, per_year(forecasts, *study, now));
    TodayItemView view;
    view.kind = "interval";
    view.part = part_view(*study, use);
    const double saving = view.part->move ? view.part->move->saving_per_year : 0;
    items.push_back({{8, saving}, std::move(view)});
  }
  return {};
}

// A stop of tomorrow that goes without a part ranks with what is late; what is to be ordered before noon behind it.
Result<void> add_stores(std::vector<Item>& items, const OpenShop& shop, StoresStudies& stores, const Moment& at) {
  HW_TAKE(today, today_of_stores(shop, stores, at.now));
  for (TodayItemView& view : today.kits) {
    const int days = view.kit->on - at.today;
    items.push_back({{days <= 1 ? 2 : 4, -1.0 * days}, std::move(view)});
  }
  for (TodayItemView& view : today.orders) {
    const double value = view.order->value.value_or(0);
    items.push_back({{view.order->due == "too late" ? 3 : 4, value}, std::move(view)});
  }
  for (TodayItemView& view : today.shelves) items.push_back({{6, 0}, std::move(view)});
  return {};
}

bool comes_before(const Item& a, const Item& b) {
  if (a.pressing.rank != b.pressing.rank) return a.pressing.rank < b.pressing.rank;
  return a.pressing.amount > b.pressing.amount;
}

}  // namespace

Result<TodayView> show_today(const OpenShop& shop, UseForecasts& forecasts, PartStudies& studies, StoresStudies& stores,
                             Instant now) {
  const Moment at{shop, shop.calendar().zone.date_of(now), now};
  std::vector<Item> items;
  HW_TRY(add_strays(items, shop));
  add_copies(items, shop.copies(), now);
  for (const auto& machine : shop.machines()) {
    HW_TAKE(uses, uses_of(shop, forecasts, *machine, now));
    const auto lock = shop.look();
    add_findings(items, *machine, at);
    add_tasks(items, *machine, uses, at);
    add_counter(items, *machine, at);
    add_stops(items, *machine, at);
    HW_TRY(add_readings(items, *machine, at));
    for (const catalogue::Rhythm rhythm : rhythms_of(*machine)) add_round(items, *machine, rhythm, at);
  }
  HW_TRY(add_intervals(items, forecasts, studies, now));
  HW_TRY(add_stores(items, shop, stores, at));
  std::stable_sort(items.begin(), items.end(), comes_before);
  TodayView view{now, at.today, {}};
  for (Item& one : items) view.items.push_back(std::move(one.view));
  return view;
}

}  // namespace hw::service
