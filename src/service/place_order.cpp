#include <cmath>

#include "src/service/stores_cases.h"
#include "src/service/stores_entries.h"

namespace hw::service {
namespace {

Result<void> check_ordered(const Stores& stores, const OrderEdit& edit) {
  for (const OrderLineText& line : edit.lines) {
    HW_TAKE(part, find_part(stores, line.part));
    if (!catalogue::is_counted(part->part.unit) || line.quantity == std::floor(line.quantity)) continue;
    return refuse(ErrorCode::bad_input, "quantity: {} of {} is no whole number of {}", line.quantity, line.part,
                  part->part.unit);
  }
  return {};
}

Result<OrderView> shown_order(const OpenShop& shop, std::string_view id, Instant now) {
  const auto lock = shop.look();
  return order_view(shop, *shop.stores().order(id), now);
}

Result<OrderRecord> kept_order(const OpenShop& shop, std::string_view id) {
  const auto lock = shop.look();
  if (const OrderRecord* order = shop.stores().order(id)) return *order;
  return refuse(ErrorCode::not_found, Saying{"no-order"}, "there is no order {}", id.substr(0, 40));
}

}  // namespace

Result<OrderView> place_order(OpenShop& shop, const OrderEdit& edit, Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  HW_TAKE(before, repeated(shop, edit.id, {order_placed, ""}));
  if (before) return shown_order(shop, edit.id, now);
  Entry entry = bare_entry(shop, "", order_placed, edit, now);
  {
    const auto lock = shop.look();
    HW_TRY(check_ordered(shop.stores(), edit));
    tell_order(entry, {edit.supplier, edit.reference, edit.confirmed_on, edit.lines, edit.note}, shop.stores());
  }
  HW_TRY(keep_in_stores(shop, entry));
  return shown_order(shop, edit.id, now);
}

Result<OrderView> change_order(OpenShop& shop, std::string_view id, const OrderChange& edit, Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  HW_TAKE(order, kept_order(shop, id));
  HW_TAKE(before, repeated(shop, edit.id, {order_changed, ""}));
  if (before) {
    const auto& stores = before->body.stores;
    if (stores && stores->news && stores->news->order == id) return shown_order(shop, id, now);
    return refuse(ErrorCode::conflict, id_used, "id: {} changed another order; an id is used once", edit.id);
  }
  if (!order.is_open()) {
    return refuse(ErrorCode::conflict, Saying{"order-over"}, "the order is over: nothing of it is still to come");
  }
  Entry entry = bare_entry(shop, "", order_changed, edit, now);
  tell_order_news(entry, order, {std::string{id}, edit.confirmed_on, edit.ended, edit.why});
  HW_TRY(keep_in_stores(shop, entry));
  return shown_order(shop, id, now);
}

}  // namespace hw::service
