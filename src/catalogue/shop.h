#pragma once
// What there is: a plant with its calendar, cells, people and machines; and the starting sets of tasks by kind of
// machine.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "src/catalogue/isolation.h"
#include "src/catalogue/kind_service.h"
#include "src/catalogue/plant_calendar.h"
#include "src/catalogue/stopping.h"
#include "src/catalogue/task.h"

namespace hw::catalogue {

struct Assembly {
  std::string key;
  std::string title;
};

// A place on a machine where someone works or looks; x and y from 0 (left, back) to 1 (right, front) on the machine's
// plan.
struct Point {
  int number = 0;
  std::string assembly;
  std::string title;
  double x = 0;
  double y = 0;
};

// What a machine of a kind starts with.
struct TaskSet {
  std::string kind;
  std::string title;
  std::string title_de;
  std::string note;
  std::vector<Assembly> assemblies;
  std::vector<Point> points;
  Isolation isolation;
  std::vector<Task> tasks;
  std::vector<KindService> services = {};
};

struct Cell {
  std::string key;
  std::string title;
  std::optional<int> max_down = {};  // machines of it that may stand for stops at once; nothing: all
};

struct Person {
  std::string name;
  Skill skill = Skill::machine_operator;
  bool is_lead = false;
};

struct Machine {
  std::string key;
  std::string name;
  std::string kind;
  std::string cell;
  std::optional<int> year;
  std::string note;
  std::string agent;   // address of its MTConnect agent: http://10.0.0.7:5000; empty: the plant's
  std::string device;  // its name at the agent; empty: its key
  std::map<std::string, std::string>
      fills;  // counter -> the control's own counter (item id) that fills its unknown time
  std::vector<Task> own_tasks;
  std::optional<double> standing_per_hour = {};  // nothing: that of Stopping
};

struct Shop {
  std::string plant;
  std::string agent;                           // for machines that name none; may be empty
  std::map<std::string, std::string> aliases;  // words for Execution that controls say -> the standard's
  PlantCalendar calendar;
  std::vector<Cell> cells;
  std::vector<Person> people;
  std::vector<Machine> machines;
  Stopping stopping;
};

}  // namespace hw::catalogue
