#pragma once
// How much of one part will have been taken by the end of each day ahead, as a distribution: needs are independent, and
// their amounts are summed by convolution.
//
//   N(d)  how often a need has come by day d:  P(N >= k) = P(the k-th time is on day d or before)
//   D(d)  = sum over needs of quantity * N(d)
//
// Exact on a grid of amounts as long as that has no more than `demand_cells_max` cells. Beyond (thousands of pieces, or
// litres in fine steps) the grid is coarser and each amount is shared between its two neighbours so that means stay
// exact; the variance of each amount rises by at most a quarter of the step squared.

#include <vector>

#include "src/kits/needs.h"

namespace hw::kits {

inline constexpr std::size_t demand_cells_max = 512;

class Demand {
 public:
  // For the days 0 (today) to days - 1; days at least 1.
  Demand(const Needs& needs, LocalDate today, int days);

  int days() const { return days_; }
  double step() const { return step_; }        // of the grid, in the part's unit
  bool is_exact() const { return is_exact_; }  // no amount was shared between neighbours
  std::size_t cells() const { return cells_; }

  // P(D(day) <= amount). Before day 0 nothing is taken; days beyond the last are as the last.
  double within(int day, double amount) const;
  // The smallest amount x of the grid with P(D(day) <= x) >= chance, which lies in (0, 1).
  double quantile(int day, double chance) const;
  // The expected amount by that day.
  double mean(int day) const;
  // E(D(day) - amount)+, what is missing on average.
  double missing(int day, double amount) const;

  // P(D(day) <= n steps) for n = 0 .. cells() - 1, the last being 1; day from 0 to days() - 1.
  const double* row(int day) const { return below_.data() + static_cast<std::size_t>(day) * cells_; }
  // The last cell that an amount fills: floor(amount / step); -1 for amounts below 0, at most cells() - 1.
  std::ptrdiff_t cell_of(double amount) const;

 private:
  int days_;
  double step_ = 1;
  bool is_exact_ = true;
  std::size_t cells_ = 1;
  std::vector<double> below_;  // day by day, cells_ each
};

// The expected amount that one need takes by the end of each day 0 .. days - 1: its part of D.
std::vector<double> expected_by_day(const CertainNeed& need, LocalDate today, int days);
std::vector<double> expected_by_day(const ExpectedNeed& need, LocalDate today, int days);
std::vector<double> expected_by_day(const FailureNeed& need, int days);

// What a page shows week by week: the amount taken from today to the end of each week ahead, and in it.
struct WeekOfDemand {
  LocalDate last_on;                         // the week's last day: the 7th, 14th ... from today on
  double mean = 0;                           // taken in this week, expected
  double mean_by = 0;                        // from today to its end: expected ...
  double q5_by = 0, q50_by = 0, q95_by = 0;  // ... and the amounts that are enough with 5, 50 and 95 %
};
std::vector<WeekOfDemand> by_week(const Demand& demand, LocalDate today);

// The chance that each part of a kit of `parts` (at least 1) independent parts has to have, for the whole kit to have
// this one: chance^(1/parts).
double each_of_kit(double chance, int parts);

}  // namespace hw::kits
