#pragma once
// A small shop for the tests of this folder: two machines of one cell, a shift from Monday to Friday, a technician also
// on Saturdays. Today is Thursday, 5 March 2026.

#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "src/proposal/shop_ahead.h"

namespace hw::proposal {

inline LocalDate day(int of_march) { return LocalDate::of(2026, 3, static_cast<unsigned>(of_march)); }

// Due between two days, each of eleven steps as likely.
inline due::DueDistribution due_between(LocalDate first, LocalDate last) {
  due::DueDistribution due;
  for (int step = 0; step <= 10; ++step) {
    const LocalDate on = first + (last - first) * step / 10;
    const double chance = std::max(0.05, 0.1 * step);
    if (!due.empty() && due.back().on == on) {
      due.back().chance = chance;
    } else {
      due.push_back({on, chance});
    }
  }
  return due;
}

// An hour of a technician's, isolated; due about day 20 of March and every month.
inline TaskAhead belt_task(std::string key = "belt") {
  TaskAhead ahead;
  ahead.task.key = std::move(key);
  ahead.task.title = "Tighten the " + ahead.task.key;
  ahead.task.assembly = "spindle";
  ahead.task.work = catalogue::WorkType::adjust;
  ahead.task.skill = catalogue::Skill::technician;
  ahead.task.energy = catalogue::EnergyState::isolated;
  ahead.task.minutes = 60;
  ahead.task.parts = {{"Belt", 1, "pc"}};
  ahead.due = due_between(day(16), day(24));
  ahead.next = due_between(day(5) + 26, day(5) + 34);
  ahead.age_days = 15;
  ahead.tolerance_days = 3;
  return ahead;
}

inline MachineAhead machine_ahead_of(std::string key, std::vector<TaskAhead> tasks) {
  return {key, "Mill " + key, "north", {}, std::move(tasks)};
}

inline ShopAhead small_shop() {
  ShopAhead shop;
  shop.calendar.zone = *Zone::find("Europe/Berlin");
  shop.today = day(5);
  shop.now = shop.calendar.zone.at(shop.today, 6 * 60 + 30);
  shop.calendar.shifts = {{"early", 6 * 60, 14 * 60, {1, 2, 3, 4, 5}}, {"late", 14 * 60, 22 * 60, {1, 2, 3, 4, 5}}};
  shop.stopping.crews = {
      {catalogue::Skill::technician, {{{1, 2, 3, 4, 5}, "early", 3, 1, 0}, {{6}, "early", 6, 0, 15}}}};
  shop.cells = {{"north", "North", 1}};
  shop.people = {{"Ada", catalogue::Skill::technician}, {"Bo", catalogue::Skill::technician}};
  shop.machines = {machine_ahead_of("m1", {belt_task("belt"), belt_task("chain")}),
                   machine_ahead_of("m2", {belt_task("belt")})};
  return shop;
}

inline AgreedStop agreed_stop(const ShopAhead& shop, std::string id, std::string machine, LocalDate on,
                              std::vector<std::string> tasks) {
  AgreedStop stop;
  stop.id = std::move(id);
  stop.machine = std::move(machine);
  stop.cell = "north";
  stop.version = 1;
  stop.on = on;
  stop.shift = "early";
  stop.begins_at = shop.calendar.zone.at(on, 6 * 60);
  for (std::string& task : tasks) {
    stop.tasks.push_back({std::move(task), catalogue::Skill::technician, catalogue::EnergyState::isolated, 60});
  }
  return stop;
}

}  // namespace hw::proposal
