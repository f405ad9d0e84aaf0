#pragma once
// Small shops for the tests.

#include <algorithm>
#include <vector>

#include "src/rehearsal/playing.h"

namespace hw::rehearsal {

// On `counter` every `length`, isolated, an hour of work.
inline Task task_every(const std::string& key, double length, double heads_up = 0) {
  Task task;
  task.key = key;
  task.intervals = {{"operating", length, heads_up, 0}};
  task.minutes = 60;
  return task;
}

// One machine whose counter "operating" rises by 10 every day, without costs.
inline ShopYear even_shop(std::vector<Task> tasks, int days = 365) {
  ShopYear shop;
  shop.days = days;
  Machine machine{"m1", "lathe", {"operating"}, {{{10, 10, 10, 10, 10, 10, 10}, 0}}, {}, 0, std::move(tasks)};
  shop.machines = {std::move(machine)};
  return shop;
}

inline Task with_part(Task task, const std::string& life = "seal") {
  task.part = Part{"operating", life, 0, 0, 0};
  return task;
}

inline std::vector<Outcome> play_years(const ShopYear& shop, std::size_t count, std::uint64_t seed = 1) {
  const Playing playing(shop);
  YearDesk desk(playing);
  std::vector<Outcome> years(count);
  playing.play({seed, 0}, years, desk);
  return years;
}

inline std::vector<Happening> tell_year(const ShopYear& shop, YearKey key = {1, 0}) {
  const Playing playing(shop);
  YearDesk desk(playing);
  std::vector<Happening> told;
  playing.play(key, desk, &told);
  return told;
}

inline bool same(const Outcome& a, const Outcome& b) {
  return std::all_of(figures.begin(), figures.end(), [&](Figure figure) { return a.*figure == b.*figure; });
}

}  // namespace hw::rehearsal
