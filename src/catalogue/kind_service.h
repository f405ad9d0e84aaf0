#pragma once
// A service of a kind of machine: tasks that are done together about once a year, as one plan with people and a day.

#include <string>
#include <vector>

#include <boost/describe/class.hpp>

#include "src/catalogue/task.h"

namespace hw::catalogue {

struct KindService {
  std::string key;                 // within its kind: "yearly"
  std::string title;               // "Yearly service"
  std::string title_de;            // in German
  int months = 12;                 // from one service to the next, 1 to 60
  int people = 2;                  // who do it together, 1 to 4
  std::vector<std::string> tasks;  // keys of tasks of the kind; a machine need not have all of them
  bool operator==(const KindService&) const = default;
};
BOOST_DESCRIBE_STRUCT(KindService, (), (key, title, title_de, months, people, tasks))

// Whether nobody else works at the machine meanwhile: what is adjusted or measured under power, since axes may move.
bool is_done_alone(WorkType work, EnergyState energy);

// How long a machine stands while `people` do these tasks together, at least: in each energy state the longest task, or
// everybody's equal share where that is longer, after what is done alone. Tasks in production do not count, nor does
// bringing the machine down and back. Minutes; people 1 or more.
double standing_minutes(const std::vector<Task>& tasks, int people);

}  // namespace hw::catalogue
