#include "src/service/stores_study.h"

#include <algorithm>

#include "src/service/lead_times.h"
#include "src/service/look_ahead.h"

namespace hw::service {
namespace {

constexpr std::int64_t minutes_kept = 10;

double middle_price(const std::vector<catalogue::StoredPart>& parts) {
  std::vector<double> prices;
  for (const auto& part : parts) {
    if (part.price) prices.push_back(*part.price);
  }
  if (prices.empty()) return price_unsaid;
  const auto middle = prices.begin() + static_cast<std::ptrdiff_t>(prices.size() / 2);
  std::nth_element(prices.begin(), middle, prices.end());
  return *middle;
}

std::size_t place_of(std::vector<std::string>& suppliers, const std::string& supplier) {
  const auto there = std::find(suppliers.begin(), suppliers.end(), supplier);
  if (there != suppliers.end()) return static_cast<std::size_t>(there - suppliers.begin());
  suppliers.push_back(supplier);
  return suppliers.size() - 1;
}

class Study {
 public:
  Study(const OpenShop& shop, StoresStudy& made) : shop_(shop), made_(made), rules_(shop.record().stopping.stores) {
    made_.ahead.today = made_.today;
    made_.ahead.holding_rate_per_year = rules_.holding_per_year;
    parts_ = shop.stores().present_parts();
    price_ = middle_price(parts_);
  }

  void add_parts() {
    for (const catalogue::StoredPart& part : parts_) made_.ahead.parts.push_back(part_ahead(part));
    for (const std::string& supplier : made_.suppliers) made_.ahead.suppliers.push_back({supplier, rules_.order_cost});
  }

  void add_demands() {
    for (const catalogue::StoredPart& part : parts_) {
      PartOutlook& outlook = made_.outlooks[part.number];
      const auto needs = made_.needs.find(part.number);
      if (needs == made_.needs.end()) continue;
      outlook.needs = &needs->second;
      outlook.demand = std::make_shared<const kits::Demand>(needs->second.needs, made_.today, weeks_looked_ahead * 7);
    }
  }

  void add_outlooks(const StopKits& kits) {
    for (const StopKit& kit : kits.kits) {
      for (const KitLineStanding& line : kit.lines) add_reserved(line);
    }
    for (const kits::ProposedOrder& order : made_.proposal.orders) {
      for (const kits::OrderLine& line : order.lines) {
        PartOutlook& outlook = made_.outlooks[parts_[line.part].number];
        outlook.order = &order;
        outlook.line = &line;
      }
    }
  }

 private:
  void add_reserved(const KitLineStanding& line) {
    if (!line.line.part) return;
    PartOutlook& own = made_.outlooks[*line.line.part];
    own.reserved += line.standing.reserved - line.standing.of_substitute;
    own.is_short = own.is_short || state_of(line) == "short";
    if (line.standing.substitute) made_.outlooks[*line.standing.substitute].reserved += line.standing.of_substitute;
  }

  kits::PartAhead part_ahead(const catalogue::StoredPart& part) {
    kits::PartAhead ahead;
    ahead.key = part.number;
    ahead.on_hand = usable_of(shop_.stores().part(part.number)->shelf, made_.outlooks[part.number].demand.get());
    ahead.open = open_orders(part);
    const auto needs = made_.needs.find(part.number);
    const int lines = needs == made_.needs.end() ? 1 : needs->second.kit_lines_max;
    if (needs != made_.needs.end()) ahead.needs = needs->second.needs;
    ahead.supplier = place_of(made_.suppliers, part.supplier.value_or(""));
    ahead.lead = made_.ahead.leads.size();
    made_.ahead.leads.push_back(lead_time_of(shop_, part));
    ahead.price = part.price.value_or(price_);
    made_.is_price_assumed = made_.is_price_assumed || !part.price;
    ahead.pack = catalogue::pack_of(part);
    ahead.minimum = part.minimum.value_or(0);
    ahead.shelf_life_days = part.shelf_life_days;
    ahead.line_cost = rules_.line_cost;
    ahead.rush_cost = rules_.rush_cost;
    ahead.missing_cost_per_day = rules_.missing_per_day;
    ahead.wanted = part.wanted.value_or(kits::each_of_kit(rules_.wanted, lines));
    return ahead;
  }

  // What expires counts only as far as it is expected to be used until then.
  double usable_of(const kits::Shelf& shelf, const kits::Demand* demand) const {
    double usable = 0;
    for (const kits::Batch& batch : shelf.batches) {
      const int days = batch.best_before ? *batch.best_before - made_.today : weeks_looked_ahead * 7;
      if (days < 0) continue;
      const double until = usable + batch.quantity;
      const bool is_limited = demand != nullptr && days < demand->days();
      usable = is_limited ? std::max(usable, std::min(until, demand->mean(days))) : until;
    }
    return usable;
  }

  std::vector<kits::OpenOrder> open_orders(const catalogue::StoredPart& part) const {
    std::vector<kits::OpenOrder> open;
    for (const OrderRecord* order : shop_.stores().open_orders_of(part.number)) {
      const LocalDate placed_on = shop_.calendar().zone.date_of(order->at);
      kits::OpenOrder one{order->outstanding(part.number), std::max(0, made_.today - placed_on), {}};
      if (order->text.confirmed_on) one.confirmed_in_days = *order->text.confirmed_on - made_.today;
      open.push_back(one);
    }
    return open;
  }

  const OpenShop& shop_;
  StoresStudy& made_;
  const catalogue::StoresRules& rules_;
  std::vector<catalogue::StoredPart> parts_;
  double price_ = price_unsaid;
};

}  // namespace

StoresStudies::Key StoresStudies::key_at(Instant now) const {
  const auto lock = shop_.look();
  Key key{shop_.stores().version(), shop_.use_changes_version(), now.as_millis() / 60'000 / minutes_kept};
  for (const auto& machine : shop_.machines()) key.machines += machine->tasks_version;
  return key;
}

Result<std::shared_ptr<const StoresStudy>> StoresStudies::at(Instant now) {
  const std::lock_guard turn(mutex_);
  const Key key = key_at(now);
  if (kept_ && key == key_) return kept_;
  auto made = std::make_shared<StoresStudy>();
  HW_TAKE(ahead, look_ahead(shop_, forecasts_, std::nullopt, now));
  HW_TAKE(failing, failing_parts(parts_, forecasts_, now));
  made->today = ahead.today;
  const auto lock = shop_.look();
  const StopKits kits = stop_kits(shop_, made->today);
  made->needs = needs_by_part(shop_, ahead, failing, kits.kits);
  Study study(shop_, *made);
  study.add_demands();
  study.add_parts();
  HW_TAKE(proposal, kits::propose(made->ahead));
  made->proposal = std::move(proposal);
  study.add_outlooks(kits);
  key_ = key;
  kept_ = std::move(made);
  return kept_;
}

}  // namespace hw::service
