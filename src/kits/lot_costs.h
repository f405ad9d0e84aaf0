#pragma once
// What ordering so much of one part on a day costs, and for how long it lasts. Unit by unit, as Axsaeter (1990) sees it
// for one unit at a time (from memory): the unit that D takes at day tau costs
//
//   holding * E(tau - arrival)+  +  missing * E(arrival - tau)+  [+ price if it is not taken within its shelf life]
//
// with E(tau - arrival)+ = sum over days of P(arrived) P(not yet taken). A lot's rate is (ordering + sum over its
// units) / (days from when the stock before it is exceeded to when the stock with it is): for Poisson demand and a
// fixed lead time exactly the (r, Q) cost of `reorder_point.h`.

#include <optional>
#include <vector>

#include "src/kits/stock_cover.h"

namespace hw::kits {

struct Lot {
  double quantity = 0;
  double holding = 0, missing = 0, wasted = 0;  // expected, of the units of the lot
  // Of the units beyond what was due before: what they cost, and the days for which they are expected to last.
  double cost = 0, days = 0;
  double rate(double ordering) const { return days > 0 ? (ordering + cost) / days : 1e300; }
};

// Lots of one part, ordered on that day on top of its position. Where the position is lower than it should have become,
// the units that should have been ordered before (`overdue`, at least 0) are in every lot and say nothing about its
// size.
class LotCosts {
 public:
  LotCosts(const StockCover& cover, int order_day, double holding_per_unit_day);

  Lot lot(double quantity, double overdue) const;
  // The most that is used within the shelf life with `used_chance`; nothing where there is no limit in sight.
  std::optional<double> quantity_within_shelf_life() const;

 private:
  double sum_to(const std::vector<double>& sums, double amount) const;
  void sum_days(const StockCover& cover, int order_day);

  const Demand* demand_;
  double position_, price_, holding_, missing_;
  std::optional<int> last_shelf_day_;
  // Up to each cell, sums over the units before it: days held, days missing; and days until each cell is exceeded.
  std::vector<double> held_, missed_, wasted_, days_;
};

// With which chance a lot has to be used within its shelf life: our own choice.
inline constexpr double used_chance = 0.9;

}  // namespace hw::kits
