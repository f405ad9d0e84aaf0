#include "src/kits/stock_cover.h"

#include <algorithm>

namespace hw::kits {
namespace {

constexpr std::size_t outcomes_max = 64;  // of open orders, there or not; more come together

}  // namespace

StockCover::StockCover(const PartAhead& part, const LeadTime& lead, LocalDate today, int days)
    : part_(&part), lead_(&lead), demand_(part.needs, today, days), position_(part.on_hand) {
  for (const OpenOrder& order : part.open) position_ += order.quantity;
}

double StockCover::until_delivery(int order_day, double position) const {
  const std::ptrdiff_t cell = demand_.cell_of(position);
  if (cell < 0) return 0;
  const std::vector<double>& lead = lead_->by_day();
  const int last = demand_.days() - 1;
  double sum = 0;
  for (std::size_t l = 1; l < lead.size(); ++l) {
    const int day = std::min(order_day + static_cast<int>(l) - 1, last);
    sum += lead[l] * demand_.row(day)[cell];
  }
  return std::min(sum, 1.0);
}

double StockCover::missing_at_delivery(int order_day, double position) const {
  const std::vector<double>& lead = lead_->by_day();
  double sum = 0;
  for (std::size_t l = 1; l < lead.size(); ++l) {
    sum += lead[l] * demand_.missing(order_day + static_cast<int>(l) - 1, position);
  }
  return sum;
}

double StockCover::arrival_chance(const OpenOrder& order, int day) const {
  if (order.confirmed_in_days && *order.confirmed_in_days >= 0) return day >= *order.confirmed_in_days ? 1 : 0;
  return lead_->within_after(order.age_days, day);
}

std::vector<StockCover::Arrived> StockCover::arrived_by(int day) const {
  std::vector<Arrived> outcomes = {{0, 1}};
  for (const OpenOrder& order : part_->open) {
    const double there = arrival_chance(order, day);
    const std::size_t before = outcomes.size();
    if (there >= 1 || there <= 0 || before >= outcomes_max) {
      for (Arrived& one : outcomes) one.quantity += there * order.quantity;
      continue;
    }
    for (std::size_t n = 0; n < before; ++n) {
      outcomes.push_back({outcomes[n].quantity + order.quantity, outcomes[n].chance * there});
      outcomes[n].chance *= 1 - there;
    }
  }
  return outcomes;
}

double StockCover::met_on(int day, double ordered_today) const {
  const double new_there = ordered_today > 0 ? lead_->within(day) : 0;
  double met = 0;
  for (const Arrived& arrived : arrived_by(day)) {
    const double stock = part_->on_hand + arrived.quantity;
    const double without = demand_.within(day, stock);
    const double with = new_there > 0 ? demand_.within(day, stock + ordered_today) : without;
    met += arrived.chance * (without + new_there * (with - without));
  }
  return std::min(met, 1.0);
}

double StockCover::met_until(int day, double ordered_today) const {
  double least = 1;
  for (int each = 0; each <= std::min(day, demand_.days() - 1); ++each) {
    least = std::min(least, met_on(each, ordered_today));
  }
  return least;
}

std::optional<int> StockCover::short_day(double chance) const {
  for (int day = 0; day < demand_.days(); ++day) {
    if (met_on(day) < chance) return day;
  }
  return std::nullopt;
}

}  // namespace hw::kits
