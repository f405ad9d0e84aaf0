#pragma once
// What the planning of stops is about, as plain values: a horizon of days, each with the same shifts; crews, cells,
// machines and their tasks. A slot is a day and a shift. Day 0 is a Monday.
//
// Units: hours; days; money in the shop's currency. Tables by weekday have 7 rows (Monday first) of one number a shift.
// The names are those of the file format `hourwright-stops-1`, which instance_file.h reads; check_instance says what
// must hold. Members that a file may leave out are std::optional; without them nothing is agreed, closed or absent, and
// nobody travels.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include <boost/describe/class.hpp>
#include <boost/describe/enum.hpp>

#include "libs/formats/json_types.h"
#include "libs/values/result.h"

namespace hw::plan {

// What a task needs of the machine, the strictest last: it produces; powered at rest; isolated.
enum class EnergyState { running, stopped, locked };
BOOST_DESCRIBE_ENUM(EnergyState, running, stopped, locked)

template <class Number>
using WeekTable = std::vector<std::vector<Number>>;  // [weekday][shift]

// Five equally likely values stand for a distribution.
using Fifths = std::array<double, 5>;

struct Shift {
  std::string name;
  double start_hour = 0;  // hours after midnight, 0 to below 24
  double hours = 0;       // its length, above 0 and at most 24
};
BOOST_DESCRIBE_STRUCT(Shift, (), (name, start_hour, hours))

// Hours of a crew's that are missing in a slot from those offered, which do not go below 0; its overtime stays.
struct Absence {
  int day = 0;
  int shift = 0;
  double hours = 0;
};
BOOST_DESCRIBE_STRUCT(Absence, (), (day, shift, hours))

// What it takes a crew that comes from elsewhere to be at a place: once for all that it does there in a slot, a visit.
struct Travel {
  std::string place;  // of machines
  double cost = 0;
  double hours = 0;  // of the crew's in that slot, at most as many as the longest shift has
};
BOOST_DESCRIBE_STRUCT(Travel, (), (place, cost, hours))

// People of one skill at one place.
struct Crew {
  std::string id;
  std::optional<std::string> skill;
  WeekTable<double> hours;           // offered
  WeekTable<double> overtime_hours;  // beyond them, at most
  double overtime_cost_per_hour = 0;
  WeekTable<double> premium_per_hour;  // night, weekend
  std::vector<int> days_off;           // days on which nobody is there
  std::optional<std::vector<Absence>> absent;
  std::optional<std::vector<Travel>> travel;  // each place once; any other costs nothing to be at
};
BOOST_DESCRIBE_STRUCT(Crew, (),
                      (id, skill, hours, overtime_hours, overtime_cost_per_hour, premium_per_hour, days_off, absent,
                       travel))

// Machines of which only some may be down at once.
struct Cell {
  std::string id;
  WeekTable<int> max_down;
};
BOOST_DESCRIBE_STRUCT(Cell, (), (id, max_down))

// What a stop costs before any work is done: to bring the machine into the state and back.
struct SetUp {
  double cost = 0;
  double hours = 0;
};
BOOST_DESCRIBE_STRUCT(SetUp, (), (cost, hours))

struct SetUps {
  SetUp stopped;
  SetUp locked;
};
BOOST_DESCRIBE_STRUCT(SetUps, (), (stopped, locked))

// The slot for which a task's first execution is announced, and the price of any other (of none within the horizon,
// too); null: it must be in that slot.
struct AgreedSlot {
  int day = 0;
  int shift = 0;
  formats::OrNull<double> move_cost;
};
BOOST_DESCRIBE_STRUCT(AgreedSlot, (), (day, shift, move_cost))

struct Task {
  std::string id;
  EnergyState state = EnergyState::stopped;
  std::string crew;
  double labour_hours = 0;
  double down_hours = 0;  // of standing, beside the stop's set-up
  double own_cost = 0;    // parts and labour of one execution
  double wear = 2;        // the wear exponent, above 1
  double late_tolerance_days = 0;
  double late_cost_per_day = 0;  // for each day beyond the tolerance
  double carry_over_cost = 0;    // for a cycle that is due and open at the horizon's end
  bool safety_critical = false;
  double age_days = 0;                    // since it was last done, on day 0
  Fifths first_due_days{};                // the day on which it first falls due
  Fifths cycle_days{};                    // the best length of the cycles after that
  int first_earliest_day = 0;             // parts are there
  formats::OrNull<int> first_latest_day;  // null: it need not be done within the horizon
  int min_gap_days = 1;
  int max_gap_days = 1;
  std::optional<AgreedSlot> agreed;
};
BOOST_DESCRIBE_STRUCT(Task, (),
                      (id, state, crew, labour_hours, down_hours, own_cost, wear, late_tolerance_days,
                       late_cost_per_day, carry_over_cost, safety_critical, age_days, first_due_days, cycle_days,
                       first_earliest_day, first_latest_day, min_gap_days, max_gap_days, agreed))

struct Machine {
  std::string id;
  std::optional<std::string> kind;
  std::optional<std::string> hall;
  std::optional<std::string> place;  // its shop, as crews travel to it
  std::string cell;
  WeekTable<double> loss_per_hour;  // what an hour of standing costs; 0 while it is not in production
  SetUps stop;
  std::vector<std::array<int, 2>> blackouts;  // first and last day on which it must not be stopped
  std::vector<Task> tasks;
};
BOOST_DESCRIBE_STRUCT(Machine, (), (id, kind, hall, place, cell, loss_per_hour, stop, blackouts, tasks))

struct Instance {
  std::string format;
  std::string name;
  int days = 0;
  std::vector<Shift> shifts;
  std::vector<Crew> crews;
  std::vector<Cell> cells;
  std::vector<Machine> machines;
  std::optional<std::vector<int>> closed_days;  // no production (standing costs 0), and nobody is there
};
BOOST_DESCRIBE_STRUCT(Instance, (), (format, name, days, shifts, crews, cells, machines, closed_days))

// Everything that planning relies on. Errors: bad_input that names the field, as "machines[3].tasks[7].wear: ...".
Result<void> check_instance(const Instance& instance);

}  // namespace hw::plan
