#pragma once
// What the servers of a group tell each other of a plant: a line for each machine, and how much falls due in which
// week.

#include <string>
#include <vector>

#include "src/service/plant_visits.h"
#include "src/service/use_forecasts.h"
#include "src/service/views.h"

namespace hw::service {

struct GroupMachineView {
  std::string key;
  std::string name;
  std::string kind;
  std::string doing;  // as DoingView
  std::string feed;   // as FeedView
  int coming = 0;
  int due = 0;
  int overdue = 0;
  OrNull<std::string> nearest = {};  // the title of the task that is nearest to falling due, or furthest beyond it
  std::vector<std::string> findings = {};  // severities of the open ones
  OrNull<LocalDate> next_stop_on = {};
};
BOOST_DESCRIBE_STRUCT(GroupMachineView, (),
                      (key, name, kind, doing, feed, coming, due, overdue, nearest, findings, next_stop_on))

// The tasks that most likely fall due (median of the forecast) in the week that begins on that Monday; in the first of
// them also all that are due already.
struct GroupWeekView {
  LocalDate week_on;
  int tasks = 0;
  double minutes = 0;
};
BOOST_DESCRIBE_STRUCT(GroupWeekView, (), (week_on, tasks, minutes))

struct PlantLineView {
  Instant as_of;
  std::vector<GroupMachineView> machines;  // in the order of the catalogue
  std::vector<GroupWeekView> weeks;
  std::vector<GroupVisitView> visits = {};
};
BOOST_DESCRIBE_STRUCT(PlantLineView, (), (as_of, machines, weeks, visits))

inline constexpr int weeks_shown = 13;

std::vector<GroupMachineView> group_machines(const OpenShop& shop, Instant now);
// weeks_shown weeks from this one on. It forecasts every task: seconds for a large plant that nobody has looked at yet.
Result<std::vector<GroupWeekView>> weeks_ahead(const OpenShop& shop, UseForecasts& forecasts, Instant now);

}  // namespace hw::service
