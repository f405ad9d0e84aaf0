#pragma once
// What people enter: anything that the app lets them, on what they know, which may be out of date, or gone.

#include <random>

#include "tests/shop_year/books.h"

namespace hw::shop_year {

// Chance of one run: the same seed, the same run.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : random_(seed) {}
  std::int64_t between(std::int64_t min, std::int64_t max) {
    return min + static_cast<std::int64_t>(random_() % static_cast<std::uint64_t>(max - min + 1));
  }
  bool percent(int chance) { return between(1, 100) <= chance; }
  template <class All>
  const typename All::value_type& one_of(const All& all) {
    return *std::next(all.begin(), between(0, static_cast<std::int64_t>(all.size()) - 1));
  }

 private:
  std::mt19937_64 random_;
};

class People {
 public:
  People(Chance& chance, const Books& books) : chance_(chance), books_(books) {}

  // Something that a person does at a device whose clock shows `at`; on the plant's day `today`.
  Act act(const std::string& by, Instant at, LocalDate today);
  // Takes back what that person has just entered.
  Act undoing(const Act& done, Instant at);

 private:
  using Made = What (People::*)();
  What walk();
  What answer();
  What mark();
  What correct();
  What read();
  What find();
  What change_finding();
  What settle();
  What task();
  What agree();
  What change_stop();
  What end_stop();
  What keep_part();
  What move();
  What order();

  std::string new_id();
  std::string any_machine();
  std::string any_task(const std::string& machine);
  std::optional<std::string> any_finding();
  std::optional<std::string> any_stop();
  std::string any_part();
  double amount() { return static_cast<double>(chance_.between(1, 6)); }

  Chance& chance_;
  const Books& books_;
  LocalDate today_;
  std::uint64_t last_id_ = 0;
  std::string walk_;     // that was begun last
  std::string walk_at_;  // its machine
};

}  // namespace hw::shop_year
