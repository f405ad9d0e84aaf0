#include "src/kits/line_choice.h"

#include <algorithm>
#include <cmath>

#include "libs/values/assert.h"

namespace hw::kits {
namespace {

constexpr double chance_slack = 1e-12;  // rounding of sums
constexpr std::size_t lots_max = 256;

// The last of 0 .. last for which `holds`, which is true up to some day and false after it; -1 where it never is.
template <class Holds>
int last_day_where(int last, const Holds& holds) {
  int low = -1, high = last + 1;
  while (high - low > 1) {
    const int middle = low + (high - low) / 2;
    (holds(middle) ? low : high) = middle;
  }
  return low;
}

double in_packs(double quantity, double pack) { return std::ceil(quantity / pack - 1e-9) * pack; }

// The smallest number of packs, from `packs` on, after which tomorrow may wait.
double least_packs(const StockCover& cover, const WaitRule& rule, int order_day) {
  const double pack = cover.part().pack;
  const auto is_enough = [&](double packs) {
    return rule.may_wait_until(order_day + 1, cover.position() + packs * pack);
  };
  double high = 1;
  while (!is_enough(high)) high *= 2;
  double low = std::floor(high / 2);
  while (high - low > 1) {
    const double middle = low + std::floor((high - low) / 2);
    (is_enough(middle) ? high : low) = middle;
  }
  return high;
}

QuantityRange range_of(const StockCover& cover, const WaitRule& rule, const LotCosts& costs, int order_day) {
  const PartAhead& part = cover.part();
  QuantityRange range;
  range.least_needed = least_packs(cover, rule, order_day) * part.pack;
  range.least = std::max(range.least_needed, in_packs(part.minimum, part.pack));
  if (const auto most = costs.quantity_within_shelf_life()) {
    range.shelf_life_max = std::floor(*most / part.pack + 1e-9) * part.pack;
  }
  return range;
}

std::vector<Lot> lots_of(const StockCover& cover, const LotCosts& costs, const QuantityRange& range) {
  const Demand& demand = cover.demand();
  const double all = static_cast<double>(demand.cells() - 1) * demand.step() - cover.position();
  const double most = std::max(range.least, std::min(all, range.shelf_life_max.value_or(all)));
  const double pack = cover.part().pack;
  const double packs = std::floor((most - range.least) / pack + 1e-9);
  const double stride = std::max(std::ceil(packs / double(lots_max)), 1.0);
  std::vector<Lot> lots;
  for (double n = 0; n <= packs; n += stride)
    lots.push_back(costs.lot(range.least + n * pack, range.least_needed - pack));
  return lots;
}

// Waiting may cost as much a day as the cheapest lot comes to. Where ordering costs nothing that is the least that a
// position can cost, so it waits as long as the newsvendor does; else the rate is taken there, and once more where
// waiting ends by it.
void weigh_cost(WaitRule& rule, const StockCover& cover, const OrderingTerms& terms, int last_day) {
  rule.set_rate_max(0);
  if (terms.ordering <= 0) return;
  double rate = 1e300;
  for (int round = 0; round < 2; ++round) {
    const int day = last_day_where(last_day, [&](int each) { return rule.may_wait_until(each, cover.position()); });
    const int order_day = std::max(day, 0);
    const LotCosts costs(cover, order_day, terms.holding_per_unit_day);
    const QuantityRange range = range_of(cover, rule, costs, order_day);
    rate = std::min(rate, cheapest(lots_of(cover, costs, range), terms.ordering).rate(terms.ordering));
    rule.set_rate_max(rate);
  }
}

// The day from 0 to last_day with the least rush * (1 - chance until delivery) - day * rate: a day later a hurry is
// likelier, and a day's rate is saved.
int day_before_rush(const StockCover& cover, double rate, int last_day) {
  const double rush = cover.part().rush_cost;
  int best = last_day;
  double least = 1e300;
  for (int day = last_day; day >= 0; --day) {
    const double cost = rush * (1 - cover.until_delivery(day, cover.position())) - day * rate;
    if (cost < least * (least > 0 ? 1 - 1e-9 : 1 + 1e-9)) {
      least = cost;
      best = day;
    }
  }
  return best;
}

}  // namespace

WaitRule::WaitRule(const StockCover& cover, double holding_per_unit_day)
    : cover_(&cover), holding_(holding_per_unit_day), missing_(cover.part().missing_cost_per_day) {}

bool WaitRule::is_long_side(int order_day, double position) const {
  return cover_->until_delivery(order_day, position) * (missing_ + holding_) >= missing_ * (1 - chance_slack);
}

bool WaitRule::may_wait_until(int order_day, double position) const {
  const double met = cover_->until_delivery(order_day, position);
  if (met < cover_->part().wanted - chance_slack) return false;
  if (!rate_max_ || is_long_side(order_day, position)) return true;
  const double missing = cover_->missing_at_delivery(order_day, position);
  const double left = missing + position - cover_->missing_at_delivery(order_day, 0);
  return holding_ * left + missing_ * missing <= *rate_max_ * (1 + chance_slack);
}

std::optional<LineChoice> choose_line(const StockCover& cover, const OrderingTerms& terms) {
  WaitRule rule(cover, terms.holding_per_unit_day);
  const int end = cover.demand().days() - 1;
  const auto may_wait = [&](int day) { return rule.may_wait_until(day, cover.position()); };
  int last_day = last_day_where(end, may_wait);
  if (rule.weighs_cost()) {
    weigh_cost(rule, cover, terms, last_day);
    last_day = last_day_where(last_day, may_wait);
  }
  if (cover.part().rush_cost > 0 && last_day > 0) {
    const LotCosts costs(cover, last_day, terms.holding_per_unit_day);
    const QuantityRange range = range_of(cover, rule, costs, last_day);
    last_day =
        day_before_rush(cover, cheapest(lots_of(cover, costs, range), terms.ordering).rate(terms.ordering), last_day);
  }
  if (last_day >= end) return std::nullopt;
  LineChoice choice;
  choice.last_day = last_day;
  choice.order_day = std::max(last_day, 0);
  const LotCosts costs(cover, choice.order_day, terms.holding_per_unit_day);
  choice.range = range_of(cover, rule, costs, choice.order_day);
  choice.lots = lots_of(cover, costs, choice.range);
  return choice;
}

const Lot& cheapest(const std::vector<Lot>& lots, double ordering) {
  HW_ASSERT(!lots.empty(), "at least one lot");
  return *std::min_element(lots.begin(), lots.end(),
                           [&](const Lot& a, const Lot& b) { return a.rate(ordering) < b.rate(ordering); });
}

}  // namespace hw::kits
