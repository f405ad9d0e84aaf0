#include "src/service/today_stores.h"

#include "src/service/stop_kits.h"
#include "src/service/stores_cases.h"

namespace hw::service {
namespace {

constexpr int kits_days_ahead = 14;

TodayItemView order_item(const OpenShop& shop, LocalDate today, OrderProposalView order) {
  TodayItemView view;
  view.kind = "order";
  view.order = std::move(order);
  view.noon = noon_of(shop, today);
  return view;
}

TodayItemView kit_item(const OpenShop& shop, const StopKit& kit) {
  TodayItemView view;
  view.kind = "kit";
  view.machine = kit.stop->machine;
  view.kit = readiness_view(shop, kit);
  return view;
}

TodayItemView shelf_item(const OpenShop& shop, const StoresStudy& study, const PartRecord& part) {
  TodayItemView view;
  view.kind = "shelf";
  view.shelf = stock_view(shop, study, part, 0);
  return view;
}

}  // namespace

Result<TodayOfStores> today_of_stores(const OpenShop& shop, StoresStudies& studies, Instant now) {
  TodayOfStores today;
  {
    const auto lock = shop.look();
    if (shop.stores().is_empty()) return today;
  }
  HW_TAKE(study, studies.at(now));
  const auto lock = shop.look();
  for (OrderProposalView& order : order_proposals(shop, *study)) {
    if (order.due != "soon") today.orders.push_back(order_item(shop, study->today, std::move(order)));
  }
  for (const StopKit& kit : stop_kits(shop, study->today).kits) {
    const bool is_near = kit.stop->plan.on <= study->today + kits_days_ahead;
    if (is_near && state_of(kit) == "short") today.kits.push_back(kit_item(shop, kit));
  }
  for (const auto& [number, part] : shop.stores().parts()) {
    if (!part.is_ended && part.shelf.difference < 0) today.shelves.push_back(shelf_item(shop, *study, part));
  }
  return today;
}

}  // namespace hw::service
