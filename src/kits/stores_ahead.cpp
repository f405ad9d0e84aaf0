#include "src/kits/stores_ahead.h"

#include <cmath>

namespace hw::kits {
namespace {

tl::unexpected<Error> wrong(const std::string& part, std::string_view field, std::string_view wanted) {
  return refuse(ErrorCode::bad_input, "part \"{}\": {} must be {}", part, field, wanted);
}

bool is_amount(double value) { return value > 0 && value <= 1e9; }
bool is_cost(double value) { return value >= 0 && value <= 1e15; }

// Chances of a due distribution rise and lie in (0, 1].
bool is_distribution(const due::DueDistribution& due) {
  double before = 0;
  for (std::size_t n = 0; n < due.size(); ++n) {
    if (!(due[n].chance >= before && due[n].chance <= 1)) return false;
    if (n > 0 && due[n].on <= due[n - 1].on) return false;
    before = due[n].chance;
  }
  return true;
}

Result<void> check_needs(const PartAhead& part) {
  for (const CertainNeed& need : part.needs.certain) {
    if (!is_amount(need.quantity)) return wrong(part.key, "the quantity of a need", "above 0 and up to 1e9");
  }
  for (const ExpectedNeed& need : part.needs.expected) {
    if (!is_amount(need.quantity)) return wrong(part.key, "the quantity of a need", "above 0 and up to 1e9");
    if (!is_distribution(need.due)) return wrong(part.key, "the due days of a need", "rising, with rising chances");
    const bool has_cycle = need.cycle_days >= 1 && need.cycle_days <= 1e6;
    if (need.cycle_days != 0 && !has_cycle) return wrong(part.key, "cycle_days", "0 or at least 1");
    if (!(need.cycle_sd_days >= 0 && need.cycle_sd_days <= 1e5)) {
      return wrong(part.key, "cycle_sd_days", "at least 0");
    }
  }
  for (const FailureNeed& need : part.needs.failures) {
    if (!is_amount(need.quantity)) return wrong(part.key, "the quantity of a need", "above 0 and up to 1e9");
    if (!(need.rate_per_day >= 0 && need.rate_per_day <= 1e4)) {
      return wrong(part.key, "rate_per_day", "at least 0 and up to 1e4");
    }
  }
  return {};
}

Result<void> check_order_terms(const PartAhead& part) {
  if (!is_amount(part.pack)) return wrong(part.key, "pack", "above 0 and up to 1e9");
  if (!(part.minimum >= 0 && part.minimum <= 1e9)) return wrong(part.key, "minimum", "at least 0 and up to 1e9");
  if (part.shelf_life_days && *part.shelf_life_days < 1) return wrong(part.key, "shelf_life_days", "at least 1");
  if (!is_cost(part.price)) return wrong(part.key, "price", "at least 0");
  if (!is_cost(part.line_cost)) return wrong(part.key, "line_cost", "at least 0");
  if (!is_cost(part.rush_cost)) return wrong(part.key, "rush_cost", "at least 0");
  if (!is_cost(part.missing_cost_per_day)) return wrong(part.key, "missing_cost_per_day", "at least 0");
  if (!(part.wanted > 0 && part.wanted < 1)) return wrong(part.key, "wanted", "a chance between 0 and 1");
  return {};
}

Result<void> check_part(const StoresAhead& stores, const PartAhead& part) {
  if (!(part.on_hand >= 0 && part.on_hand <= 1e9)) return wrong(part.key, "on_hand", "at least 0 and up to 1e9");
  if (part.supplier >= stores.suppliers.size()) return wrong(part.key, "supplier", "one of the suppliers");
  if (part.lead >= stores.leads.size()) return wrong(part.key, "lead", "one of the lead times");
  for (const OpenOrder& order : part.open) {
    if (!is_amount(order.quantity)) return wrong(part.key, "the quantity of an open order", "above 0 and up to 1e9");
    if (order.age_days < 0) return wrong(part.key, "the age of an open order", "at least 0 days");
  }
  HW_TRY(check_needs(part));
  return check_order_terms(part);
}

}  // namespace

Result<void> check(const StoresAhead& stores) {
  if (stores.days < 30 || stores.days > 1100) return refuse(ErrorCode::bad_input, "days must be from 30 to 1100");
  if (!(stores.holding_rate_per_year >= 0 && stores.holding_rate_per_year <= 100)) {
    return refuse(ErrorCode::bad_input, "holding_rate_per_year must be a share of the price, from 0 to 100");
  }
  for (const Supplier& supplier : stores.suppliers) {
    if (!is_cost(supplier.order_cost)) {
      return refuse(ErrorCode::bad_input, "supplier \"{}\": order_cost must be at least 0", supplier.key);
    }
  }
  for (const PartAhead& part : stores.parts) HW_TRY(check_part(stores, part));
  return {};
}

}  // namespace hw::kits
