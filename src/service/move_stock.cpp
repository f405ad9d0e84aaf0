#include "src/service/make_views.h"
#include "src/service/stop_follow_up.h"
#include "src/service/stores_cases.h"
#include "src/service/stores_entries.h"

namespace hw::service {
namespace {

using kits::MovementKind;

// A thing of its own number comes in once; whatever else is said of one is kept as it was said.
Result<void> check_serials_of(const PartRecord& part, const MovedPart& line, MovementKind kind) {
  const std::size_t named = line.serials ? line.serials->size() : 0;
  if (!part.part.serial.value_or(false)) {
    if (named == 0) return {};
    return refuse(ErrorCode::bad_input, "serials: part {} is not followed by serial numbers", line.part);
  }
  if (static_cast<double>(named) != line.quantity && kind != MovementKind::counted) {
    return refuse(ErrorCode::bad_input, Saying{"serials-count", {{"part", line.part}}},
                  "serials: part {} is followed by serial numbers: name one for each, not {} for {:g}", line.part,
                  named, line.quantity);
  }
  if (kind != MovementKind::received) return {};
  for (const std::string& serial : *line.serials) {
    const auto there = part.shelf.serials.find(serial);
    const bool is_there = there != part.shelf.serials.end() && there->second.kind != MovementKind::taken &&
                          there->second.kind != MovementKind::scrapped;
    if (!is_there) continue;
    return refuse(ErrorCode::conflict, "serials: \"{}\" of part {} is in the stores already", serial, line.part);
  }
  return {};
}

Result<void> check_line(const Stores& stores, const MovedPart& line, MovementKind kind) {
  HW_TAKE(part, kind == MovementKind::received ? find_part(stores, line.part) : find_part_ever(stores, line.part));
  HW_TRY(catalogue::check_whole(part->part, line.quantity));
  if (line.best_before && kind != MovementKind::received) {
    return refuse(ErrorCode::bad_input, "best_before: only what is received has one");
  }
  return check_serials_of(*part, line, kind);
}

Result<void> check_delivery(const Stores& stores, const MovementEdit& edit) {
  if (!edit.order) return {};
  const auto order = find_order(stores, *edit.order);
  if (!order) return refuse(order.error().at("order"));
  if (edit.more_than_ordered.value_or(false)) return {};
  for (const MovedPart& line : edit.lines) {
    const double left = (*order)->outstanding(line.part);
    if (line.quantity <= left + 1e-9) continue;
    return refuse(ErrorCode::bad_input,
                  Saying{"more-than-ordered", {{"part", line.part}}, {{"left", left}, {"came", line.quantity}}},
                  "quantity: {:g} of {} came, and {:g} was still to come; if that is right, say so "
                  "(more_than_ordered)",
                  line.quantity, line.part, left);
  }
  return {};
}

// By its shelf life, where whoever received it does not say.
void fill_best_before(std::vector<MovedPart>& lines, const Stores& stores, LocalDate received_on) {
  for (MovedPart& line : lines) {
    const PartRecord* part = stores.part(line.part);
    if (line.best_before || part == nullptr || !part->part.shelf_life_days) continue;
    line.best_before = received_on + *part->part.shelf_life_days;
  }
}

// The machine of the stop, where it is for one.
Result<std::string> machine_of(const OpenShop& shop, const MovementEdit& edit) {
  if (edit.stop) {
    HW_TAKE(stop, stored_stop(shop, *edit.stop));
    return stop.machine;
  }
  if (!edit.machine) return std::string{};
  HW_TAKE(machine, shop.find(*edit.machine));
  if (edit.task) HW_TRY(find_task(*machine, *edit.task));
  return *edit.machine;
}

// The best-before days may be the server's.
bool is_said_in(const StoresText& says, const MovementEdit& edit) {
  if (!says.movements || says.movements->size() != 1) return false;
  MovementText kept = says.movements->front();
  MovementText said{edit.kind, edit.lines, edit.stop, edit.task, edit.order, edit.why};
  for (MovementText* one : {&kept, &said}) {
    for (MovedPart& line : one->lines) line.best_before = {};
  }
  return says_the_same(std::optional{kept}, said);
}

}  // namespace

Result<EntryView> move_stock(OpenShop& shop, const MovementEdit& edit, Instant now) {
  HW_TRY(check(edit));
  const auto turn = shop.edit();
  HW_TAKE(machine, machine_of(shop, edit));
  HW_TAKE(before, said_before(shop, edit.id, {stock_moved, machine},
                              [&](const StoresText& says) { return is_said_in(says, edit); }));
  if (before) return view_of(*before);
  Entry entry = bare_entry(shop, machine, stock_moved, edit, now);
  {
    const auto lock = shop.look();
    const Stores& stores = shop.stores();
    for (std::size_t i = 0; i < edit.lines.size(); ++i) {
      const auto checked = check_line(stores, edit.lines[i], edit.kind);
      if (!checked) return refuse(checked.error().at(fmt::format("lines[{}]", i)));
    }
    HW_TRY(check_delivery(stores, edit));
    MovementText movement{edit.kind, edit.lines, edit.stop, edit.task, edit.order, edit.why};
    if (edit.kind == MovementKind::received) {
      fill_best_before(movement.lines, stores, shop.calendar().zone.date_of(entry.happened_at));
    }
    tell_movements(entry, {std::move(movement)}, stores);
  }
  HW_TRY(keep_in_stores(shop, entry));
  return view_of(entry);
}

}  // namespace hw::service
