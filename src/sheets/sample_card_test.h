#pragma once
// A job card of a machine with the starting set of its kind, for tests only.

#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>

#include "libs/values/assert.h"
#include "src/catalogue/shop_files.h"
#include "src/sheets/job_card.h"
#include "tests/places/places.h"

namespace hw::sheets {

inline catalogue::TaskSet set_of(const std::string& kind) {
  std::stringstream text;
  text << std::ifstream(in_source("library/") + kind + ".toml").rdbuf();
  auto set = catalogue::parse_task_set(text.str(), kind);
  HW_ASSERT(set.has_value(), "the library's sets are read");
  return *std::move(set);
}

inline CardPhase phase_of(catalogue::EnergyState energy, StateChange change) { return {energy, change, {}}; }

// From production to isolated and back; with no task that is isolated only to rest and back.
inline void plan_phases(JobCard& card) {
  using catalogue::EnergyState;
  card.phases = {phase_of(EnergyState::in_production, StateChange::none),
                 phase_of(EnergyState::powered_at_rest, StateChange::shut_down)};
  const auto is_isolated = [](const auto& task) { return task.energy == EnergyState::isolated; };
  if (std::any_of(card.tasks.begin(), card.tasks.end(), is_isolated)) {
    card.phases.push_back(phase_of(EnergyState::isolated, StateChange::isolate));
    card.phases.push_back(phase_of(EnergyState::powered_at_rest, StateChange::release));
  }
  card.phases.push_back(phase_of(EnergyState::in_production, StateChange::restart));
  double begin_minutes = 10;
  for (const auto& task : card.tasks) {
    const auto phase = std::find_if(card.phases.begin(), card.phases.end(),
                                    [&](const auto& one) { return one.energy == task.energy; });
    const int person = phase->works.size() % 2 == 0 ? 1 : 2;
    phase->works.push_back({task.key, person, begin_minutes, false, {}});
    begin_minutes += task.minutes / 2;
  }
}

// The first `tasks` of the kind's set (as often again as it takes, under other keys), parts and all.
inline JobCard card_of(const std::string& kind, std::size_t tasks) {
  const auto set = set_of(kind);
  JobCard card;
  card.stop = "7b0d4b1e-52f7-4f64-9a3b-0c8f3f0d6a11";
  card.address = "http://hourwright.shop.example:8470/stop/" + card.stop;
  card.plant = "Plant South";
  card.machine = {.key = "m07",
                  .name = "Long Tom",
                  .kind = kind,
                  .cell = "b",
                  .year = {},
                  .note = "",
                  .agent = "",
                  .device = "",
                  .fills = {},
                  .own_tasks = {}};
  card.kind = set.title;
  card.cell = "Turning";
  card.assemblies = set.assemblies;
  card.points = set.points;
  card.on = LocalDate::of(2026, 11, 28);
  card.shift = {"early", "06:00", "14:00"};
  card.agreed_by = "Ada";
  card.agreed_on = LocalDate::of(2026, 11, 23);
  card.minutes_one = 245;
  card.minutes_two = 150;
  for (std::size_t i = 0; i < tasks; ++i) {
    auto task = set.tasks[i % set.tasks.size()];
    if (i >= set.tasks.size()) task.key += "-again";
    for (const auto& part : task.parts) card.kit.push_back({part.name, part.quantity, part.unit, {task.key}});
    card.tasks.push_back(std::move(task));
  }
  card.isolation = set.isolation;
  plan_phases(card);
  return card;
}

}  // namespace hw::sheets
