#include "src/simulate/ordering_rules.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "src/kits/propose_orders.h"

namespace hw::simulate {
namespace {

constexpr int days_ahead = 240;
const LocalDate day_zero = LocalDate::of(2026, 1, 1);

// Stock and orders, less what is owed.
std::vector<double> positions(const StoresView& view) {
  std::vector<double> positions(view.on_hand.begin(), view.on_hand.end());
  for (std::size_t n = 0; n < positions.size(); ++n) positions[n] -= view.owed[n];
  for (const OrderUnderWay& order : view.under_way) positions[order.part] += order.quantity;
  return positions;
}

// Use scatters from day to day, so what is left takes about as many days, give or take the root; and a stop may take
// the task along some days before.
due::DueDistribution due_of(double days_left, LocalDate today) {
  constexpr std::array<double, 10> z = {-1.645, -1.036, -0.674, -0.385, -0.126, 0.126, 0.385, 0.674, 1.036, 1.645};
  const double joined = StoresFloor::joined_days / 3.0;
  const double middle = std::max(days_left - joined, 1.0);
  const double sd = std::sqrt(StoresFloor::use_scatter * StoresFloor::use_scatter * middle + joined * joined);
  due::DueDistribution due;
  for (std::size_t n = 0; n < z.size(); ++n) {
    const LocalDate on = today + std::max(static_cast<int>(std::lround(middle + sd * z[n])), 1);
    const double chance = static_cast<double>(n + 1) / z.size();
    if (!due.empty() && due.back().on == on) {
      due.back().chance = chance;
    } else {
      due.push_back({on, chance});
    }
  }
  return due;
}

void add_task(kits::StoresAhead& stores, const WornTask& task, int day) {
  const LocalDate today = stores.today;
  const double left = task.agreed ? *task.agreed - day + task.interval : task.left;
  for (const Taken& taken : task.takes) {
    kits::Needs& needs = stores.parts[taken.part].needs;
    if (task.agreed) needs.certain.push_back({today + (*task.agreed - day), taken.quantity});
    needs.expected.push_back(
        {due_of(left, today), taken.quantity, task.interval, StoresFloor::use_scatter * std::sqrt(task.interval)});
  }
}

kits::StoresAhead stores_of(const StoresView& view, double wanted, const OrderCosts& costs) {
  kits::StoresAhead stores;
  const int day = view.floor.day();
  stores.today = day_zero + day;
  stores.days = days_ahead;
  stores.holding_rate_per_year = costs.holding_rate_per_year;
  for (std::size_t n = 0; n < view.floor.suppliers().size(); ++n) {
    stores.leads.emplace_back(view.floor.suppliers()[n].quoted_days, view.took_days[n]);
    stores.suppliers.push_back({std::to_string(n), costs.order});
  }
  for (std::size_t n = 0; n < view.floor.parts().size(); ++n) {
    const StoredPart& stored = view.floor.parts()[n];
    kits::PartAhead part;
    part.key = std::to_string(n);
    part.on_hand = view.on_hand[n];
    part.needs.failures.push_back({stored.failures_per_day, 1});
    if (view.owed[n] > 0) part.needs.certain.push_back({stores.today, view.owed[n]});
    part.supplier = part.lead = static_cast<std::size_t>(stored.supplier);
    part.price = stored.price;
    part.line_cost = costs.line;
    part.wanted = wanted;
    stores.parts.push_back(std::move(part));
  }
  for (const OrderUnderWay& order : view.under_way) {
    stores.parts[order.part].open.push_back({order.quantity, day - order.ordered_on, {}});
  }
  for (const WornTask& task : view.floor.tasks()) add_task(stores, task, day);
  return stores;
}

}  // namespace

std::vector<double> ProposedOrders::order(const StoresView& view) const {
  const auto proposal = kits::propose(stores_of(view, wanted_, costs_));
  std::vector<double> ordered(view.on_hand.size());
  for (const kits::ProposedOrder& order : proposal.value().orders) {
    if (order.when == kits::When::later) continue;
    for (const kits::OrderLine& line : order.lines) ordered[line.part] = line.quantity;
  }
  return ordered;
}

std::vector<double> SoManyOfEverything::order(const StoresView& view) const {
  std::vector<double> ordered = positions(view);
  for (std::size_t n = 0; n < ordered.size(); ++n) {
    const double share = std::fmod(0.618034 * static_cast<double>(n + 1), 1.0);
    const double level = std::floor(level_) + (share < level_ - std::floor(level_) ? 1 : 0);
    ordered[n] = std::max(level - ordered[n], 0.0);
  }
  return ordered;
}

std::vector<double> MinMax::order(const StoresView& view) const {
  std::vector<double> ordered = positions(view);
  for (std::size_t n = 0; n < ordered.size(); ++n) {
    const StoredPart& part = view.floor.parts()[n];
    const double lead = view.floor.suppliers()[static_cast<std::size_t>(part.supplier)].quoted_days;
    const double least = std::ceil(times_ * part.use_per_day * lead);
    const double most = least + std::ceil(part.use_per_day * 365 / 4);
    ordered[n] = ordered[n] <= least ? most - ordered[n] : 0;
  }
  return ordered;
}

}  // namespace hw::simulate
