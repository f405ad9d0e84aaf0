#include "src/service/stores_cases.h"
#include "src/service/stores_entries.h"

namespace hw::service {
namespace {

Result<void> check_ordered(const Stores& stores, const OrderEdit& edit) {
  for (const OrderLineText& line : edit.lines) {
    HW_TAKE(part, find_part(stores, line.part));
    HW_TRY(catalogue::check_whole(part->part, line.quantity));
  }
  return {};
}

// A copy, for as long as no lock is held.
Result<OrderRecord> kept_order(const OpenShop& shop, std::string_view id) {
  const auto lock = shop.look();
  HW_TAKE(order, find_order(shop.stores(), id));
  return *order;
}

}  // namespace

Result<OrderView> show_order(const OpenShop& shop, std::string_view id, Instant now) {
  const auto lock = shop.look();
  HW_TAKE(order, find_order(shop.stores(), id));
  return order_view(shop, *order, now);
}

Result<OrderView> place_order(OpenShop& shop, const OrderEdit& edit, Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  const OrderText text{edit.supplier, edit.reference, edit.confirmed_on, edit.lines, edit.note};
  HW_TAKE(before, said_before(shop, edit.id, {order_placed, ""},
                              [&](const StoresText& says) { return says_the_same(says.order, text); }));
  if (before) return show_order(shop, edit.id, now);
  Entry entry = bare_entry(shop, "", order_placed, edit, now);
  {
    const auto lock = shop.look();
    HW_TRY(check_ordered(shop.stores(), edit));
    tell_order(entry, text, shop.stores());
  }
  HW_TRY(keep_in_stores(shop, entry));
  return show_order(shop, edit.id, now);
}

Result<OrderView> change_order(OpenShop& shop, std::string_view id, const OrderChange& edit, Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  HW_TAKE(order, kept_order(shop, id));
  const OrderNews news{std::string{id}, edit.confirmed_on, edit.ended, edit.why};
  HW_TAKE(before, said_before(shop, edit.id, {order_changed, ""},
                              [&](const StoresText& says) { return says_the_same(says.news, news); }));
  if (before) return show_order(shop, id, now);
  if (!order.is_open()) {
    return refuse(ErrorCode::conflict, Saying{"order-over"}, "the order is over: nothing of it is still to come");
  }
  Entry entry = bare_entry(shop, "", order_changed, edit, now);
  tell_order_news(entry, order, news);
  HW_TRY(keep_in_stores(shop, entry));
  return show_order(shop, id, now);
}

}  // namespace hw::service
