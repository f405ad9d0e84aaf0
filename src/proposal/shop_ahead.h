#pragma once
// What a shop has ahead of it, as planning its stops needs it: tasks with their due dates, agreed stops, people, what
// stands against a stop. Plain values, so that a plan can be worked on while the shop goes on.
//
// Days are those of the plant's zone; `today` is the day on which `now` lies.

#include <string>
#include <vector>

#include "libs/values/instant.h"
#include "src/catalogue/shop.h"
#include "src/due/due_dates.h"
#include "src/proposal/cost_growth.h"

namespace hw::proposal {

// When one of a task's calendar triggers falls due.
struct CalendarDue {
  catalogue::CalendarInterval every;
  LocalDate due_on;
  int tolerance_days = 0;
};

// Several tasks that are planned as one and done by people together (services_ahead.h).
struct JointWork {
  std::vector<std::string> tasks;  // their keys
  double standing_minutes = 0;     // of the machine, without bringing it down and back
  CostGrowth growth;
  bool guards_people = false;
};

struct TaskAhead {
  catalogue::Task task;
  due::DueDistribution due;           // when it falls due; what is over lies before today
  due::DueDistribution next;          // when it would fall due again if it were done today
  int age_days = 0;                   // since it was last done, or since it counts
  double tolerance_days = 0;          // from due to overdue
  std::vector<CalendarDue> calendar;  // of its calendar triggers alone
  std::optional<JointWork> joint;     // it stands for these tasks, and is done once within the plan at least
  bool is_held = false;               // it is only where it is agreed, whatever its dates
};

struct MachineAhead {
  std::string key;
  std::string name;
  std::string cell;
  std::optional<double> standing_per_hour;            // nothing: that of the settings
  std::vector<TaskAhead> tasks;                       // without checks of each start-up, shift and day
  std::vector<catalogue::KindService> services = {};  // of its kind
};

// A task of an agreed stop, as it was when it was agreed.
struct AgreedTask {
  std::string task;
  catalogue::Skill skill = catalogue::Skill::technician;
  catalogue::EnergyState energy = catalogue::EnergyState::powered_at_rest;
  double minutes = 0;
  std::optional<double> standing_minutes = {};  // where several do it together; nothing: as many as it takes one
};

struct AgreedStop {
  std::string id;
  std::string machine;
  std::string cell;  // the machine's
  int version = 0;
  LocalDate on;
  std::string shift;
  Instant begins_at;
  std::vector<AgreedTask> tasks;
};

struct ShopAhead {
  Instant now;
  LocalDate today;
  catalogue::PlantCalendar calendar;
  catalogue::Stopping stopping;
  std::vector<catalogue::Cell> cells;
  std::vector<catalogue::Person> people;
  std::vector<MachineAhead> machines;
  std::vector<AgreedStop> agreed;  // of all machines
};

}  // namespace hw::proposal
