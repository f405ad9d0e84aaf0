#include "tests/due/use_regimes.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "libs/numerics/random.h"
#include "src/due/future_days.h"

namespace hw::tests {
namespace {

using numerics::Random;
using Series = std::vector<double>;  // one number a day

// One machine's whole life: the history and ten years more.
struct Life {
  Random random;
  LocalDate first_on;
  int history_days = 0;
  std::size_t size = 0;  // days in all

  int day_of_year(std::size_t day) const { return (first_on.days + static_cast<int>(day)) % 365; }
  std::size_t weekday(std::size_t day) const {
    return static_cast<std::size_t>(iso_weekday(first_on + static_cast<int>(day)) - 1);
  }
};

using Weekdays = std::array<double, 7>;

Weekdays usual_weekdays(Random& random) {
  Weekdays use{1, 1, 1, 1, 1, 0, 0};
  const double kind = random.uniform();
  if (kind < 0.2) use = {1, 1, 1, 1, 1, 1, 1};
  if (kind > 0.4 && kind < 0.55) use[5] = random.between(0.2, 0.8);
  if (kind > 0.55 && kind < 0.7) use[4] = random.between(0.3, 0.8);
  if (kind > 0.85) {
    for (double& day : use) day *= random.between(0.5, 1.2);
  }
  return use;
}

Weekdays weekend_weekdays(Random& random) {
  Weekdays use{1, 1, 1, 1, 1, 1, 1};
  const double kind = random.uniform();
  if (kind < 0.3) use[5] = random.between(0.2, 1), use[6] = random.between(0, 0.6);
  if (kind > 0.8) {
    for (std::size_t day = 0; day < 5; ++day) use[day] = random.between(0.1, 0.6);
  }
  return use;
}

// A level that wanders by chance, or rises or falls at a rate for a while.
Series drifting_level(Life& life) {
  Series level(life.size);
  Random& random = life.random;
  const bool wanders = random.chance(0.4);
  const double step = random.log_between(0.003, 0.03), back = random.chance(0.5) ? random.log_between(0.001, 0.02) : 0;
  const double rate = random.log_between(0.0005, 0.005) * (random.chance(0.5) ? 1 : -1);
  const double bound = random.between(0.4, 1.5);
  const int begin = random.chance(0.5) ? 0 : life.history_days / 2;
  double log_level = 0;
  for (std::size_t day = 0; day < life.size; ++day) {
    log_level = wanders ? std::clamp(log_level * (1 - back) + step * random.normal(), -2.5, 2.5)
                        : std::clamp(rate * std::max(0, static_cast<int>(day) - begin), -bound, bound);
    level[day] = std::exp(log_level);
  }
  return level;
}

Series stepping_level(Life& life) {
  Series level(life.size);
  Random& random = life.random;
  const double between = random.log_between(30, 300), size = random.between(0.2, 0.9);
  const bool returns = random.chance(0.5);
  double log_level = 0;
  int until = random.geometric(between);
  for (std::size_t day = 0; day < life.size; ++day) {
    if (--until < 0) {
      log_level = std::clamp((returns ? 0 : log_level) + size * random.normal(), -1.8, 1.8);
      until = random.geometric(between);
    }
    level[day] = std::exp(log_level);
  }
  return level;
}

Series seasonal_level(Life& life) {
  Series level(life.size);
  Random& random = life.random;
  const double height = random.between(0.2, 0.85), phase = random.between(0, 2 * std::numbers::pi);
  const bool is_block = random.chance(0.3);
  const int begin = random.whole_between(0, 364), length = random.whole_between(20, 100);
  const double low = random.between(0, 0.5);
  for (std::size_t day = 0; day < life.size; ++day) {
    const bool in_block = (life.day_of_year(day) - begin + 365) % 365 < length;
    const double angle = 2 * std::numbers::pi * (life.first_on.days + static_cast<double>(day)) / 365.25;
    level[day] = is_block ? (in_block ? low : 1) : 1 + height * std::sin(angle + phase);
  }
  return level;
}

// Days with and without work, each by itself or clinging together.
Series intermittent_level(Life& life) {
  Series level(life.size);
  const double share = life.random.between(0.1, 0.6);
  const double clings = life.random.chance(0.5) ? 0 : life.random.between(0, 0.6);
  bool works = life.random.chance(share);
  for (double& day : level) {
    works = life.random.chance(share * (1 - clings) + (works ? clings : 0));
    day = works ? 1 : 0;
  }
  return level;
}

struct Spells {
  double work_days, rest_days;
  double spread;    // of the level from spell to spell, on the log scale
  bool is_regular;  // spells are near their mean
};

Series spells_level(Life& life, const Spells& spells) {
  Series level(life.size);
  Random& random = life.random;
  const auto length = [&](double mean) {
    return spells.is_regular ? static_cast<int>(mean * random.between(0.7, 1.3)) : random.geometric(mean);
  };
  bool works = random.chance(spells.work_days / (spells.work_days + spells.rest_days));
  int until = random.geometric(works ? spells.work_days : spells.rest_days);
  double height = 1;
  for (double& day : level) {
    if (--until < 0) {
      works = !works;
      until = std::max(1, length(works ? spells.work_days : spells.rest_days)) - 1;
      height = std::exp(spells.spread * random.normal() - spells.spread * spells.spread / 2);
    }
    day = works ? height : 0;
  }
  return level;
}

Series batch_level(Life& life) {
  Random& random = life.random;
  return spells_level(life, {random.between(2, 10), random.between(2, 25), random.between(0, 0.6), random.chance(0.3)});
}

Series standing_level(Life& life) {
  Random& random = life.random;
  return spells_level(life, {random.log_between(15, 150), random.log_between(5, 70), 0, random.chance(0.2)});
}

// A new machine may come up to its use slowly.
Series new_level(Life& life) {
  Series level(life.size, 1.0);
  if (life.random.chance(0.7)) return level;
  const double lacks = life.random.between(0.2, 0.7), days = life.random.between(10, 60);
  for (std::size_t day = 0; day < life.size; ++day) level[day] = 1 - lacks * std::exp(-static_cast<double>(day) / days);
  return level;
}

Series level_of(Regime regime, Life& life) {
  switch (regime) {
    case Regime::drifting:
      return drifting_level(life);
    case Regime::stepping:
      return stepping_level(life);
    case Regime::seasonal:
      return seasonal_level(life);
    case Regime::intermittent:
      return intermittent_level(life);
    case Regime::standing:
      return standing_level(life);
    case Regime::batch:
      return batch_level(life);
    case Regime::new_machine:
      return new_level(life);
    default:
      return Series(life.size, 1.0);
  }
}

std::vector<LocalDate> closed_days(Life& life) {
  std::vector<LocalDate> closed;
  if (life.random.chance(0.5)) return closed;
  const int summer = life.random.chance(0.4) ? life.random.whole_between(180, 230) : 1000;
  for (std::size_t day = 0; day < life.size; ++day) {
    const int in_year = life.day_of_year(day);
    const bool is_closed =
        in_year >= 357 || in_year == 0 || in_year == 120 || (in_year >= summer && in_year < summer + 14);
    if (is_closed) closed.push_back(life.first_on + static_cast<int>(day));
  }
  return closed;
}

// Every day's use, relative to a full day's.
Series use_of(Regime regime, Life& life, const std::vector<LocalDate>& closed) {
  Random& random = life.random;
  const bool weekends = regime == Regime::weekend_work;
  const Weekdays weekdays = weekends ? weekend_weekdays(random) : usual_weekdays(random);
  const double weekend_chance = weekends && random.chance(0.4) ? random.between(0.2, 0.8) : 1;
  const Series level = level_of(regime, life);
  const double scatter = regime == Regime::intermittent ? random.between(0.2, 1) : random.log_between(0.03, 0.8);
  const double shape = 1 / (scatter * scatter);
  const double idle = random.chance(0.5) ? 0 : random.between(0, 0.15);
  const double most = random.chance(0.3) ? random.between(1.05, 2) : 1e9;
  Series use(life.size);
  for (std::size_t day = 0; day < life.size; ++day) {
    const std::size_t weekday = life.weekday(day);
    const bool is_idle = random.chance(idle) || (weekday >= 5 && !random.chance(weekend_chance));
    const double drawn = std::min(most, random.gamma(shape) / shape);
    use[day] = is_idle ? 0 : weekdays[weekday] * level[day] * drawn;
  }
  for (const LocalDate day : closed) use[static_cast<std::size_t>(day - life.first_on)] = 0;
  return use;
}

std::vector<char> known_days(Regime regime, Life& life) {
  const auto days = static_cast<std::size_t>(life.history_days);
  std::vector<char> known(days, 1);
  if (regime != Regime::holes) return known;
  Random& random = life.random;
  const double missing = random.chance(0.7) ? random.between(0.05, 0.6) : 0;
  for (char& day : known) day = random.chance(missing) ? 0 : 1;
  const int gaps = missing > 0 ? random.whole_between(0, 2) : random.whole_between(1, 3);
  for (int n = 0; n < gaps; ++n) {
    const int begin = random.whole_between(0, life.history_days - 1);
    const int end = std::min(life.history_days, begin + random.whole_between(1, std::max(1, life.history_days / 3)));
    std::fill(known.begin() + begin, known.begin() + end, char{0});
  }
  return known;
}

Life make_life(Regime regime, std::uint64_t seed) {
  Life life{Random(seed * 1'000'003 + static_cast<std::uint64_t>(regime)), {}};
  Random& random = life.random;
  const bool is_long = regime == Regime::seasonal && random.chance(0.6);
  life.history_days = regime == Regime::new_machine ? random.whole_between(4, 14)
                      : is_long                     ? random.whole_between(300, 800)
                                                    : static_cast<int>(random.log_between(5, 800));
  life.first_on = LocalDate{19'000 + random.whole_between(0, 3000)};
  life.size = static_cast<std::size_t>(life.history_days + due::horizon_days);
  return life;
}

int outcome_of(const Series& use, int history_days, double left) {
  double sum = 0;
  for (int day = 0; day < due::horizon_days; ++day) {
    sum += use[static_cast<std::size_t>(history_days + day)];
    if (sum >= left) return day;
  }
  return due::horizon_days;
}

}  // namespace

std::string_view word_of(Regime regime) {
  constexpr std::array<std::string_view, regimes.size()> words = {
      "steady",   "drifting", "stepping",     "seasonal", "intermittent",
      "standing", "batch",    "weekend work", "holes",    "new"};
  return words[static_cast<std::size_t>(regime)];
}

RegimeCase make_case(Regime regime, std::uint64_t seed) {
  Life life = make_life(regime, seed);
  RegimeCase made;
  made.history.closed = closed_days(life);
  Series use = use_of(regime, life, made.history.closed);
  const std::vector<char> known = known_days(regime, life);
  const double scale = life.random.log_between(0.1, 1e6);
  double sum = 0;
  for (double& day : use) day *= scale;
  for (int day = 0; day < life.history_days; ++day) {
    if (known[static_cast<std::size_t>(day)] == 0) continue;
    const double used = use[static_cast<std::size_t>(day)];
    made.history.days.push_back({life.first_on + day, used});
    sum += used;
  }
  made.history.start = life.first_on + life.history_days;
  const bool has_use = made.history.days.size() >= 5 && sum > 0 && due::arrange(made.history).has_value();
  if (!has_use) return make_case(regime, seed + 1'000'000'007);
  made.left = sum / static_cast<double>(made.history.days.size()) * life.random.log_between(0.5, 400);
  made.outcome_days = outcome_of(use, life.history_days, made.left);
  return made;
}

}  // namespace hw::tests
