#pragma once
// A year of the shop as it is played: machines with their tasks, what wears them, what is known of the lives of their
// parts, and what stops and failures cost.
//
// Money in any one currency; lengths, heads-ups, ages and lives in the unit of their counter, or in days of the
// calendar.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "libs/values/result.h"
#include "src/catalogue/work_words.h"
#include "src/life/believed_lives.h"

namespace hw::rehearsal {

struct Interval {
  std::optional<std::string> counter;  // nothing: days of the calendar
  double length = 0;                   // above 0
  double heads_up = 0;                 // 0 to below the length: from here on it is taken along into a stop
  double used = 0;                     // of it when the year begins, at least 0
};

// What is known of the life of parts that are alike. In each year one of the lives is true, and it is so for all of
// them: what is not known of a life does not average out over machines.
struct KnownLife {
  std::string key;
  std::vector<life::Believed> believed;  // one, or what the lives seen allow; shares sum up to 1
};

// The part that the task replaces. It is new when the task is done, and after each failure.
struct Part {
  std::optional<std::string> counter;  // on which it ages; nothing: in days of the calendar
  std::string life;                    // the key of a KnownLife
  double age = 0;                      // when the year begins
  double failed_cost = 0;              // of a failure, beside the standing
  double failed_standing_hours = 0;    // of the machine
};

struct Task {
  std::string key;
  std::vector<Interval> intervals;  // at least one; the first that is used up decides
  double minutes = 0;               // hands on
  catalogue::EnergyState energy = catalogue::EnergyState::isolated;
  double planned_cost = 0;  // parts and the like, beside labour and standing
  std::optional<Part> part;
};

// How much a counter rises on a weekday (Monday first), and how much that scatters from day to day: the standard
// deviation as a share of the mean.
struct WeekdayUse {
  std::array<double, 7> mean{};
  double scatter = 0;  // 0 to 2
};

// One past day of a machine: what each of its counters rose by.
struct PastDay {
  int weekday = 1;  // ISO: 1 is Monday
  std::vector<double> used;
};

struct Machine {
  std::string key;
  std::string kind;
  std::vector<std::string> counters;
  std::vector<WeekdayUse> use;  // either one for each counter ...
  std::vector<PastDay> past;    // ... or days to draw from, at least one for each weekday
  double standing_per_hour = 0;
  std::vector<Task> tasks;
};

// What a stop takes before any work is done.
struct SetUp {
  double hours = 0;
  double cost = 0;
};

struct ShopYear {
  int days = 365;           // 1 to `days_max`
  int first_weekday = 1;    // ISO
  std::vector<int> closed;  // days on which nothing is used, from 0 to days - 1
  SetUp powered_at_rest;
  SetUp isolated;
  double labour_per_hour = 0;
  std::vector<KnownLife> lives;
  std::vector<Machine> machines;
};

inline constexpr int days_max = 36'500;
inline constexpr double often_per_day_max = 24;  // that a task may fall due, or a part fail

// Errors: bad_input for what contradicts itself or means nothing, by the name of its field, as
// machines[0].tasks[2].intervals[0].length.
Result<void> check(const ShopYear& shop);

}  // namespace hw::rehearsal
