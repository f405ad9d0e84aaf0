#pragma once
// Plays a year of the shop: use is drawn day by day and rises evenly within a day; a task falls due the moment its
// first interval is used up; what needs the machine stopped opens a stop then, which takes along what is near on that
// machine and needs no deeper an energy state; parts fail at ages drawn from their lives and are replaced at once,
// which begins their task's intervals anew.
//
//   const Playing playing(shop);             // a checked shop; prepares the tables, once
//   YearDesk desk(playing);                  // room to work in, one for each thread
//   Outcome year = playing.play({seed, 17}, desk);
//
// Year 17 of a seed is always the same, whatever was played before. Two shops that differ in their intervals alone meet
// the same use, the same true lives, and the same k-th part of each task in it (common random numbers). Errors: none.

#include <cstdint>
#include <span>
#include <vector>

#include "libs/numerics/random.h"
#include "src/rehearsal/day_pool.h"
#include "src/rehearsal/outcome.h"
#include "src/rehearsal/shop_year.h"

namespace hw::rehearsal {

struct YearKey {
  std::uint64_t seed = 0;
  std::uint64_t year = 0;
};

// What happened, for whoever wants to follow a year.
struct Happening {
  enum class What { failed, done };
  What what = What::done;
  std::size_t machine = 0;  // their places in the shop
  std::size_t task = 0;
  double at_day = 0;  // from 0; 1.5: noon of the second day
  double age = 0;     // of the part, where the task has one
};

class Playing;

// A machine's year while it is played.
class YearDesk {
 public:
  explicit YearDesk(const Playing& playing);

 private:
  friend class MachineYear;
  friend class Playing;
  std::vector<double>
      totals;               // by day (days + 1) and counter, the calendar last: what it has risen by at its beginning
  std::vector<double> now;  // by counter: the same at the moment
  std::vector<double> targets;          // by interval: the total, or the day, at which it is used up
  std::vector<double> due_at;           // by task, in days
  std::vector<double> fails_at;         // by task; never where nothing can fail
  std::vector<double> next_at;          // by task: the first of the two
  std::vector<double> made_at;          // by task: the total at which its part was new
  std::vector<numerics::Random> parts;  // by task: from which the next part's life is drawn
  std::vector<std::size_t> lives;       // by life of the shop: the one believed that is true in this year
};

class Playing {
 public:
  explicit Playing(const ShopYear& shop);

  // `told` is appended to where it is given.
  Outcome play(YearKey key, YearDesk& desk, std::vector<Happening>* told = nullptr) const;
  // Years first, first + 1 ... into `years`.
  void play(YearKey first, std::span<Outcome> years, YearDesk& desk) const;

 private:
  friend class YearDesk;
  friend class MachineYear;
  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  struct IntervalTable {
    std::size_t counter = 0;  // beyond the last: the calendar, which rises by 1 a day
    double length = 0, heads_up = 0, used = 0;
  };
  struct TaskTable {
    std::size_t intervals_begin = 0, intervals_end = 0;
    catalogue::EnergyState energy = catalogue::EnergyState::isolated;
    double hours = 0, planned_cost = 0;
    std::size_t life = none;  // its place in lives_
    std::size_t life_counter = none;
    double age = 0, failed_cost = 0, failed_standing_hours = 0;
  };
  struct MachineTable {
    DayPool pool;
    double standing_per_hour = 0;
    std::vector<TaskTable> tasks;
    std::vector<IntervalTable> intervals;
  };
  struct LifeTable {
    std::vector<life::Weibull> lives;
    std::vector<double> shares_up_to;
  };

  MachineTable table_of(const Machine& machine, const std::vector<KnownLife>& lives) const;

  std::size_t days_ = 0;
  std::size_t first_weekday_ = 0;
  std::vector<char> is_closed_;
  SetUp powered_at_rest_, isolated_;
  double labour_per_hour_ = 0;
  std::vector<MachineTable> machines_;
  std::vector<LifeTable> lives_;
};

}  // namespace hw::rehearsal
