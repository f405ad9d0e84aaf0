#include "src/kits/lot_costs.h"

#include <algorithm>
#include <cmath>

namespace hw::kits {
namespace {

// In place: sums[n] becomes the sum of what stood before n, times `each`; one longer.
void sum_up(std::vector<double>& sums, double each) {
  double sum = 0;
  for (double& one : sums) {
    const double here = one;
    one = sum;
    sum += here * each;
  }
  sums.push_back(sum);
}

}  // namespace

LotCosts::LotCosts(const StockCover& cover, int order_day, double holding_per_unit_day)
    : demand_(&cover.demand()),
      position_(cover.position()),
      price_(cover.part().price),
      holding_(holding_per_unit_day),
      missing_(cover.part().missing_cost_per_day) {
  if (cover.part().shelf_life_days) {
    const int last =
        order_day + static_cast<int>(std::lround(cover.lead().mean_days())) + *cover.part().shelf_life_days;
    if (last < demand_->days()) last_shelf_day_ = last;
  }
  sum_days(cover, order_day);
}

void LotCosts::sum_days(const StockCover& cover, int order_day) {
  const std::size_t cells = demand_->cells();
  const auto first = static_cast<std::size_t>(std::max<std::ptrdiff_t>(demand_->cell_of(position_), 0));
  held_.assign(cells, 0);
  missed_.assign(cells, 0);
  days_.assign(cells, 0);
  wasted_.assign(cells, 0);
  const std::vector<double>& lead = cover.lead().by_day();
  double there = 0;
  for (int day = order_day; day < demand_->days(); ++day) {
    const auto l = static_cast<std::size_t>(day - order_day);
    if (l < lead.size()) there = std::min(there + lead[l], 1.0);
    const double* below = demand_->row(day);
    for (std::size_t n = first; n < cells; ++n) {
      days_[n] += below[n];
      held_[n] += there * below[n];
    }
    if (there >= 1 || missing_ <= 0) continue;
    for (std::size_t n = first; n < cells; ++n) missed_[n] += (1 - there) * (1 - below[n]);
  }
  if (last_shelf_day_) std::copy_n(demand_->row(*last_shelf_day_), cells, wasted_.begin());
  for (auto* sums : {&held_, &missed_, &wasted_}) sum_up(*sums, demand_->step());
}

// Between two cells by the straight line; beyond the last one as the last one, which nothing takes.
double LotCosts::sum_to(const std::vector<double>& sums, double amount) const {
  const double cells_on = amount / demand_->step();
  const auto n = static_cast<std::size_t>(std::clamp(std::floor(cells_on + 1e-6), 0.0, double(sums.size() - 2)));
  return sums[n] + (sums[n + 1] - sums[n]) * std::max(cells_on - static_cast<double>(n), 0.0);
}

Lot LotCosts::lot(double quantity, double overdue) const {
  const double end = position_ + quantity;
  const auto days_until = [&](double amount) {
    return days_[static_cast<std::size_t>(std::max<std::ptrdiff_t>(demand_->cell_of(amount), 0))];
  };
  const auto cost_from = [&](double begin) {
    Lot lot{quantity};
    lot.holding = holding_ * (sum_to(held_, end) - sum_to(held_, begin));
    lot.missing = missing_ * (sum_to(missed_, end) - sum_to(missed_, begin));
    lot.wasted = last_shelf_day_ ? price_ * (sum_to(wasted_, end) - sum_to(wasted_, begin)) : 0;
    return lot;
  };
  Lot lot = cost_from(position_);
  const Lot beyond = cost_from(position_ + overdue);
  lot.cost = beyond.holding + beyond.missing + beyond.wasted;
  lot.days = days_until(end) - days_until(position_ + overdue);
  return lot;
}

std::optional<double> LotCosts::quantity_within_shelf_life() const {
  if (!last_shelf_day_) return std::nullopt;
  return std::max(demand_->quantile(*last_shelf_day_, 1 - used_chance) - position_, 0.0);
}

}  // namespace hw::kits
