#include "src/due/standing.h"

#include <algorithm>
#include <cmath>

#include "libs/numerics/normal_tail.h"

namespace hw::due {
namespace {

constexpr int spell_workdays_min = 3;
constexpr double used_min = 0.03;       // of the mean day with use: less is no use
constexpr double workday_share = 0.35;  // of the greatest weekday's: below it, no use is nothing unusual
// Before anything is seen: a stop in 250 days, as sure as a twentieth of a stop; spells of 10 days, as sure as two.
constexpr double stops_prior = 0.06, active_prior = 15;
constexpr double ends_prior = 2.6, resting_prior = 16;
constexpr double gap_forgets_days = 10;

double mean_day_with_use(const PastUse& past) {
  double used = 0, days = 0;
  for (const PastDay& day : past.days) {
    if (day.is_counted && day.used > 0) used += day.used, days += 1;
  }
  return days > 0 ? used / days : 0;
}

// Runs of workdays without use, one after the other.
class SpellFinder {
 public:
  // The shares of the history's days, unknown ones included, closed ones 0.
  explicit SpellFinder(std::vector<double> shares) : shares_(std::move(shares)) {
    past_.stands.assign(shares_.size(), 0);
  }

  void see(std::size_t day, bool has_use, bool is_workday) {
    if (has_use) return end_run(day);
    if (run_ == 0 && is_workday) begin_ = day;
    if (is_workday) ++run_;
  }

  StandingPast finish(std::size_t end, double counted_shares) && {
    StandingBelief& belief = past_.belief;
    const bool stands = run_ >= spell_workdays_min;
    if (stands) mark(end);
    belief.spells_seen = complete_ + (stands ? 1 : 0);
    belief.ends = ends_prior + complete_;
    belief.resting = resting_prior + marked_;
    belief.stops = stops_prior + belief.spells_seen;
    belief.active = active_prior + std::max(0.0, counted_shares - marked_);
    belief.stands_now = chance_of_spell(run_);
    return std::move(past_);
  }

 private:
  void end_run(std::size_t day) {
    for (int length = 1; length <= std::min(run_, spell_workdays_min); ++length) ++reached_[index(length)];
    if (run_ >= spell_workdays_min) {
      mark(day);
      ++complete_;
    }
    run_ = 0;
  }

  void mark(std::size_t end) {
    for (std::size_t day = begin_; day < end; ++day) past_.stands[day] = 1, marked_ += shares_[day];
  }

  // Of the runs that came as far as this one, so many became spells.
  double chance_of_spell(int run) const {
    if (run >= spell_workdays_min) return 1;
    if (run == 0) return 0;
    return (0.1 + reached_[index(spell_workdays_min)]) / (1.0 + reached_[index(run)]);
  }
  static std::size_t index(int length) { return static_cast<std::size_t>(length - 1); }

  StandingPast past_;
  std::vector<double> shares_;
  std::size_t begin_ = 0;
  double marked_ = 0;
  int run_ = 0, complete_ = 0;
  std::array<int, spell_workdays_min> reached_{};  // runs that came to at least 1, 2, 3 days
};

// All moments of the time that the machine stands while it is active for `active` days.
struct Delay {
  double none = 1;  // chance of no spell
  double mean = 0, variance = 0;
};

Delay delay_while_active(const StandingBelief& b, double active) {
  const double stops = b.stops * active / b.active;
  const double stops_squared = stops * (1 + active / b.active) + stops * stops;
  const double mean = b.spell_mean();
  const double squared = b.resting * b.resting / ((b.ends - 1) * (b.ends - 2));
  return {std::pow(1 + active / b.active, -b.stops), stops * mean,
          squared * (stops + stops_squared) - stops * stops * mean * mean};
}

// P(gamma variable of that mean and variance <= x), by its cube root.
double gamma_below(double x, double mean, double variance) {
  if (x <= 0) return 0;
  const double c2 = variance / (mean * mean);
  if (c2 > 1) return 1 - std::exp(-std::pow(x / mean, 1 / std::sqrt(c2)));  // near an exponential, with a longer tail
  return numerics::normal_below((std::cbrt(x / mean) - 1 + c2 / 9) / (std::sqrt(c2) / 3));
}

double delay_below(const StandingBelief& b, double active, double resting) {
  const Delay d = delay_while_active(b, active);
  const double some = 1 - d.none;
  double running = d.none;
  if (some > 1e-9) {
    const double mean = d.mean / some;
    const double variance = std::max(0.05 * mean * mean, (d.variance + d.mean * d.mean) / some - mean * mean);
    running += some * gamma_below(resting, mean, variance);
  }
  if (b.stands_now <= 0) return running;
  // The spell that runs: Lomax, P(rest <= r) = 1 - (1 + r / resting)^-ends.
  double standing = 1 - std::pow(1 + resting / b.resting, -b.ends);
  if (active > 0) {
    const double rest = b.spell_mean();
    const double rest_variance = rest * rest * b.ends / (b.ends - 2);
    if (d.mean > 0.02 * rest)
      standing = std::min(standing, gamma_below(resting, rest + d.mean, rest_variance + d.variance));
  }
  return (1 - b.stands_now) * running + b.stands_now * standing;
}

}  // namespace

StandingPast find_spells(const PastUse& past, const WeekdayShares& shares) {
  const double enough = used_min * mean_day_with_use(past);
  const double workday = workday_share * *std::max_element(shares.begin(), shares.end());
  const auto first_weekday = static_cast<std::size_t>(iso_weekday(past.first_on) - 1);
  std::vector<double> by_day(past.days.size());
  for (std::size_t n = 0; n < by_day.size(); ++n) {
    if (!past.days[n].is_closed) by_day[n] = shares[(first_weekday + n) % 7];
  }
  SpellFinder finder(by_day);
  double counted = 0;
  std::size_t end = 0;
  for (std::size_t n = 0; n < past.days.size(); ++n) {
    if (!past.days[n].is_counted) continue;
    finder.see(n, past.days[n].used > enough, by_day[n] >= workday);
    counted += by_day[n];
    end = n + 1;
  }
  StandingPast found = std::move(finder).finish(end, counted);
  StandingBelief& b = found.belief;
  const double standing = b.stops / b.active * b.spell_mean();
  const double kept = std::exp(-static_cast<double>(past.days.size() - end) / gap_forgets_days);
  b.stands_now = kept * b.stands_now + (1 - kept) * standing / (1 + standing);
  return found;
}

PastUse without_spells(PastUse past, const std::vector<char>& stands) {
  for (std::size_t n = 0; n < past.days.size(); ++n) {
    if (stands[n] != 0) past.days[n].is_counted = false;
  }
  return past;
}

std::vector<ActivePart> active_parts(const StandingBelief& belief, double shares) {
  const auto active_at_least = [&](double fraction) {
    return delay_below(belief, fraction * shares, (1 - fraction) * shares);
  };
  const double always = belief.stands_now < 1 ? active_at_least(1) : 0;
  if (always > 0.999) return {{1, 1}};
  const int cells = always > 0.97 ? 2 : 6;
  // The fractions that are exceeded with nearly everything and nearly nothing of what is not `always`.
  const auto fraction_with = [&](double chance) {
    double low = 0, high = 1;
    for (int n = 0; n < 10; ++n) {
      const double middle = (low + high) / 2;
      (active_at_least(middle) > chance ? low : high) = middle;
    }
    return (low + high) / 2;
  };
  const double low = fraction_with(0.99), high = fraction_with(always + 0.01 * (1 - always));
  std::vector<ActivePart> parts;
  double exceeded = 1;
  for (int n = 0; n <= cells; ++n) {
    const double fraction = low + (high - low) * n / cells;
    const double chance = n == cells ? always : active_at_least(fraction);
    const double middle = n == 0 ? low / 2 : fraction - (high - low) / (2 * cells);
    if (exceeded - chance > 1e-4) parts.push_back({exceeded - chance, n == 0 ? low : middle}), exceeded = chance;
  }
  if (exceeded > 0) parts.push_back({exceeded, always > 0 ? 1 : high});
  return parts;
}

}  // namespace hw::due
