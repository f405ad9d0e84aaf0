#pragma once
// What a shop says of its stops: what standing and work cost, who is there when, and what stands against a stop. Every
// value has a default, so that a shop that says nothing can be planned; the defaults are our own choice and stand in
// docs/set-up/shop-file.md.
//
// Money in `currency`; hours; days are those of the plant's zone.

#include <optional>
#include <string>
#include <vector>

#include <boost/describe/class.hpp>

#include "libs/values/local_date.h"
#include "src/catalogue/work_words.h"

namespace hw::catalogue {

// What a stop takes before any work is done: the machine brought into the state and back.
struct StopSetUp {
  double hours = 0;  // 0 to 24
  double cost = 0;   // 0 to 1e6
  bool operator==(const StopSetUp&) const = default;
};
BOOST_DESCRIBE_STRUCT(StopSetUp, (), (hours, cost))

// What it takes the outside service to come, once for all that it does in the plant in a shift.
struct OutsideVisit {
  double hours = 0;  // of its people's in that shift, 0 to 24 and no longer than the plant's longest shift
  double cost = 0;   // 0 to 1e6
  bool operator==(const OutsideVisit&) const = default;
};
BOOST_DESCRIBE_STRUCT(OutsideVisit, (), (hours, cost))

// People of one skill in one shift of some weekdays. The plant need not work then: that is when standing costs nothing.
struct CrewHours {
  std::vector<int> weekdays;    // ISO, of the day on which the shift begins
  std::string shift;            // its name; empty in a plant without shifts
  double hours = 0;             // that they have for stops, together, 0 to 1,000
  double overtime = 0;          // hours beyond them, at most
  double premium_per_hour = 0;  // on every hour in this shift
  bool operator==(const CrewHours&) const = default;
};
BOOST_DESCRIBE_STRUCT(CrewHours, (), (weekdays, shift, hours, overtime, premium_per_hour))

struct Crew {
  Skill skill = Skill::technician;
  std::vector<CrewHours> hours;
  bool operator==(const Crew&) const = default;
};
BOOST_DESCRIBE_STRUCT(Crew, (), (skill, hours))

// Either of the two: everybody of a skill, or one person.
struct Absence {
  std::optional<Skill> skill;
  std::optional<std::string> person;
  LocalDate from;
  LocalDate until;  // the last day
  std::string why;
  bool operator==(const Absence&) const = default;
};
BOOST_DESCRIBE_STRUCT(Absence, (), (skill, person, from, until, why))

// Days on which a machine, or all machines of a cell, must not be stopped: a hot order.
struct Blackout {
  std::optional<std::string> machine;
  std::optional<std::string> cell;
  LocalDate from;
  LocalDate until;
  std::string why;
  bool operator==(const Blackout&) const = default;
};
BOOST_DESCRIBE_STRUCT(Blackout, (), (machine, cell, from, until, why))

// A task that waits for its parts.
struct PartsAwaited {
  std::string machine;
  std::string task;
  LocalDate on;  // the day on which they are there
  bool operator==(const PartsAwaited&) const = default;
};
BOOST_DESCRIBE_STRUCT(PartsAwaited, (), (machine, task, on))

// What ordering, holding and lacking parts costs, and how sure a shop wants to be that they are there.
struct StoresRules {
  double wanted = 0.95;           // the chance that the kit of a stop is complete on its day, 0.5 to 0.9999
  double holding_per_year = 0.2;  // share of the price that a year on the shelf costs, 0 to 2
  double order_cost = 30;         // of an order, however many lines it has
  double line_cost = 5;           // of one more line
  double rush_cost = 80;          // of getting a part in a hurry
  double missing_per_day = 20;    // of a stop's part that is not there, for each day
  int noon_minute = 12 * 60;      // until when an order counts as placed today, minutes from midnight
  bool operator==(const StoresRules&) const = default;
};
BOOST_DESCRIBE_STRUCT(StoresRules, (),
                      (wanted, holding_per_year, order_cost, line_cost, rush_cost, missing_per_day, noon_minute))

struct Stopping {
  std::string currency = "EUR";   // three letters, ISO 4217
  double standing_per_hour = 80;  // of a machine in production that names none of its own
  double labour_per_hour = 60;
  double overtime_per_hour = 30;  // beside the labour
  StopSetUp powered_at_rest{0.25, 20};
  StopSetUp isolated{0.75, 60};
  double moving = 50;                              // what moving a stop is worth that people have been told of
  std::optional<OutsideVisit> outside_visit = {};  // nothing: it is there anyway
  std::vector<Crew> crews;
  std::vector<Absence> absences;
  std::vector<Blackout> blackouts;
  std::vector<PartsAwaited> parts_awaited;
  StoresRules stores;
  bool operator==(const Stopping&) const = default;
};
BOOST_DESCRIBE_STRUCT(Stopping, (),
                      (currency, standing_per_hour, labour_per_hour, overtime_per_hour, powered_at_rest, isolated,
                       moving, outside_visit, crews, absences, blackouts, parts_awaited, stores))

// What a stop in that state takes; one in production takes what one at rest does, should it come to a stop.
inline const StopSetUp& set_up_of(const Stopping& stopping, EnergyState energy) {
  return energy == EnergyState::isolated ? stopping.isolated : stopping.powered_at_rest;
}

}  // namespace hw::catalogue
