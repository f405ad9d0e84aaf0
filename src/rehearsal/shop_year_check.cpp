#include <algorithm>
#include <cmath>
#include <set>

#include "src/rehearsal/day_pool.h"
#include "src/rehearsal/shop_year.h"

namespace hw::rehearsal {
namespace {

constexpr double amount_max = 1e12;
constexpr double shape_max = 1000;
constexpr double scale_max = 1e100;  // few lives allow nearly any
constexpr double shares_off_max = 1e-6;

tl::unexpected<Error> refuse_field(const std::string& place, const char* field, const std::string& says) {
  return refuse(ErrorCode::bad_input, "{}{}{}: {}", place, place.empty() ? "" : ".", field, says);
}

Result<void> check_amount(double amount, const std::string& place, const char* field, double most = amount_max) {
  if (amount >= 0 && amount <= most) return {};
  return refuse_field(place, field, fmt::format("{} must be 0 to {:g}", amount, most));
}

Result<void> check_use(const Machine& machine, const std::string& place) {
  if (machine.counters.empty() && machine.use.empty() && machine.past.empty()) return {};
  if (machine.use.empty() == machine.past.empty()) {
    return refuse_field(place, "use", "either the use by weekday or past days are needed");
  }
  if (!machine.use.empty() && machine.use.size() != machine.counters.size()) {
    return refuse_field(place, "use",
                        fmt::format("one for each of the {} counters is needed", machine.counters.size()));
  }
  for (const WeekdayUse& use : machine.use) {
    for (const double mean : use.mean) HW_TRY(check_amount(mean, place, "use.mean"));
    HW_TRY(check_amount(use.scatter, place, "use.scatter", 2));
  }
  std::array<int, 7> days{};
  for (const PastDay& day : machine.past) {
    if (day.weekday < 1 || day.weekday > 7) return refuse_field(place, "past.weekday", "1 to 7 is needed");
    if (day.used.size() != machine.counters.size()) {
      return refuse_field(place, "past.used", "one number for each counter is needed");
    }
    for (const double used : day.used) HW_TRY(check_amount(used, place, "past.used"));
    ++days[static_cast<std::size_t>(day.weekday - 1)];
  }
  const bool lacks_one = std::count(days.begin(), days.end(), 0) > 0;
  if (!machine.past.empty() && lacks_one) return refuse_field(place, "past", "each weekday needs a day at least");
  return {};
}

// Of the machine, by counter.
struct Busiest {
  const Machine& machine;
  std::vector<double> day;

  Result<double> of(const std::optional<std::string>& counter, const std::string& place) const {
    if (!counter) return 1.0;
    const auto there = std::find(machine.counters.begin(), machine.counters.end(), *counter);
    if (there != machine.counters.end()) return day[static_cast<std::size_t>(there - machine.counters.begin())];
    return refuse_field(place, "counter", fmt::format("the machine {} has no counter \"{}\"", machine.key, *counter));
  }
};

Result<void> check_interval(const Interval& interval, const Busiest& busiest, const std::string& place) {
  HW_TAKE(per_day, busiest.of(interval.counter, place));
  if (!(interval.length > 0 && interval.length <= amount_max)) {
    return refuse_field(place, "length", fmt::format("{} must be above 0", interval.length));
  }
  if (interval.length * often_per_day_max < per_day) {
    return refuse_field(place, "length",
                        fmt::format("{:g} is used up more than {:g} times on a day with {:g}", interval.length,
                                    often_per_day_max, per_day));
  }
  if (!(interval.heads_up >= 0 && interval.heads_up < interval.length)) {
    return refuse_field(place, "heads_up", fmt::format("{} must be 0 to below the length", interval.heads_up));
  }
  return check_amount(interval.used, place, "used");
}

// By Wald's equation no more than 2 t / E[min(life, t)] failures are to be expected up to t.
bool fails_too_often(const life::Weibull& life, double until, int days) {
  return until > 0 && 2 * until / life::mean_life_until(life, until) > often_per_day_max * days;
}

Result<void> check_known(const KnownLife& known, const std::string& place) {
  if (known.believed.empty()) return refuse_field(place, "believed", "one life at least is needed");
  double shares = 0;
  for (const life::Believed& one : known.believed) {
    if (!(one.life.shape > 0 && one.life.scale > 0 && one.life.shape <= shape_max && one.life.scale <= scale_max)) {
      return refuse_field(place, "believed", "shape and scale must be above 0");
    }
    HW_TRY(check_amount(one.share, place, "believed.share", 1 + shares_off_max));
    shares += one.share;
  }
  if (std::abs(shares - 1) <= shares_off_max) return {};
  return refuse_field(place, "believed", fmt::format("the shares must sum up to 1, not {:g}", shares));
}

Result<void> check_part(const Part& part, const Busiest& busiest, const ShopYear& shop, const std::string& place) {
  HW_TAKE(per_day, busiest.of(part.counter, place));
  const auto is_its = [&](const KnownLife& known) { return known.key == part.life; };
  const auto known = std::find_if(shop.lives.begin(), shop.lives.end(), is_its);
  if (known == shop.lives.end()) return refuse_field(place, "life", fmt::format("there is no life \"{}\"", part.life));
  for (const life::Believed& one : known->believed) {
    if (!fails_too_often(one.life, per_day * shop.days, shop.days)) continue;
    return refuse_field(place, "life",
                        fmt::format("with shape {:g} and scale {:g} it fails more than {:g} times a day",
                                    one.life.shape, one.life.scale, often_per_day_max));
  }
  HW_TRY(check_amount(part.age, place, "age"));
  HW_TRY(check_amount(part.failed_cost, place, "failed_cost"));
  return check_amount(part.failed_standing_hours, place, "failed_standing_hours");
}

Result<void> check_task(const Task& task, const Busiest& busiest, const ShopYear& shop, const std::string& place) {
  HW_TRY(check_amount(task.minutes, place, "minutes"));
  HW_TRY(check_amount(task.planned_cost, place, "planned_cost"));
  if (task.intervals.empty()) return refuse_field(place, "intervals", "one at least is needed");
  for (std::size_t i = 0; i < task.intervals.size(); ++i) {
    HW_TRY(check_interval(task.intervals[i], busiest, fmt::format("{}.intervals[{}]", place, i)));
  }
  return task.part ? check_part(*task.part, busiest, shop, place + ".part") : Result<void>{};
}

template <class Things>
Result<void> check_once(const Things& things, const std::string& place) {
  std::set<std::string> seen;
  for (std::size_t i = 0; i < things.size(); ++i) {
    if (things[i].key.empty()) return refuse_field(fmt::format("{}[{}]", place, i), "key", "it is empty");
    if (seen.insert(things[i].key).second) continue;
    return refuse_field(fmt::format("{}[{}]", place, i), "key", fmt::format("\"{}\" stands twice", things[i].key));
  }
  return {};
}

Result<void> check_machine(const Machine& machine, const ShopYear& shop, const std::string& place) {
  const std::set<std::string> counters(machine.counters.begin(), machine.counters.end());
  if (counters.size() != machine.counters.size()) return refuse_field(place, "counters", "one of them stands twice");
  HW_TRY(check_use(machine, place));
  HW_TRY(check_amount(machine.standing_per_hour, place, "standing_per_hour"));
  HW_TRY(check_once(machine.tasks, place + ".tasks"));
  const Busiest busiest{machine, busiest_day(machine)};
  for (std::size_t i = 0; i < machine.tasks.size(); ++i) {
    HW_TRY(check_task(machine.tasks[i], busiest, shop, fmt::format("{}.tasks[{}]", place, i)));
  }
  return {};
}

Result<void> check_set_up(const SetUp& set_up, const char* field) {
  HW_TRY(check_amount(set_up.hours, field, "hours", 24));
  return check_amount(set_up.cost, field, "cost");
}

}  // namespace

Result<void> check(const ShopYear& shop) {
  if (shop.days < 1 || shop.days > days_max) {
    return refuse(ErrorCode::bad_input, "days: {} must be 1 to {}", shop.days, days_max);
  }
  if (shop.first_weekday < 1 || shop.first_weekday > 7) {
    return refuse(ErrorCode::bad_input, "first_weekday: {} must be 1 (Monday) to 7", shop.first_weekday);
  }
  for (const int day : shop.closed) {
    if (day < 0 || day >= shop.days) {
      return refuse(ErrorCode::bad_input, "closed: {} must be 0 to {}", day, shop.days - 1);
    }
  }
  HW_TRY(check_set_up(shop.powered_at_rest, "powered_at_rest"));
  HW_TRY(check_set_up(shop.isolated, "isolated"));
  HW_TRY(check_amount(shop.labour_per_hour, "", "labour_per_hour"));
  HW_TRY(check_once(shop.lives, "lives"));
  for (std::size_t i = 0; i < shop.lives.size(); ++i) {
    HW_TRY(check_known(shop.lives[i], fmt::format("lives[{}]", i)));
  }
  HW_TRY(check_once(shop.machines, "machines"));
  for (std::size_t i = 0; i < shop.machines.size(); ++i) {
    HW_TRY(check_machine(shop.machines[i], shop, fmt::format("machines[{}]", i)));
  }
  return {};
}

}  // namespace hw::rehearsal
