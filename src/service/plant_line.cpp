#include "src/service/plant_line.h"

#include "src/service/make_views.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

constexpr int week_days = 7;

GroupMachineView short_line(FloorMachineView view) {
  GroupMachineView line;
  line.key = std::move(view.key);
  line.name = std::move(view.name);
  line.kind = std::move(view.kind);
  line.doing = std::move(view.doing.state);
  line.feed = std::move(view.feed.state);
  line.coming = view.tally.coming;
  line.due = view.tally.due;
  line.overdue = view.tally.overdue;
  if (view.nearest) line.nearest = view.nearest->title;
  line.findings = std::move(view.findings);
  if (view.next_stop) line.next_stop_on = view.next_stop->on;
  return line;
}

LocalDate monday_of(LocalDate day) { return day - (iso_weekday(day) - 1); }

}  // namespace

std::vector<GroupMachineView> group_machines(const OpenShop& shop, Instant now) {
  std::vector<GroupMachineView> lines;
  for (const auto& machine : shop.machines()) {
    const auto looking = shop.look();
    lines.push_back(short_line(floor_view(shop, *machine, now)));
  }
  return lines;
}

Result<std::vector<GroupWeekView>> weeks_ahead(const OpenShop& shop, UseForecasts& forecasts, Instant now) {
  HW_TAKE(horizon, show_horizon(shop, forecasts, std::nullopt, now));
  const LocalDate first = monday_of(horizon.today);
  std::vector<GroupWeekView> weeks;
  for (int week = 0; week < weeks_shown; ++week) weeks.push_back({first + week * week_days, 0, 0});
  for (const HorizonMachineView& machine : horizon.machines) {
    for (const HorizonTaskView& task : machine.tasks) {
      if (!task.forecast.median) continue;
      const int days = std::max(0, *task.forecast.median - first);
      if (days >= weeks_shown * week_days) continue;
      GroupWeekView& week = weeks[static_cast<std::size_t>(days / week_days)];
      ++week.tasks;
      week.minutes += task.minutes;
    }
  }
  return weeks;
}

}  // namespace hw::service
