#include "src/service/plan_edits.h"

#include <algorithm>
#include <set>

#include "src/service/entry_making.h"
#include "src/service/make_views.h"
#include "src/service/use_cases.h"

namespace hw::service {
namespace {

using catalogue::Point;

Result<Point*> find_point(std::vector<Point>& points, int number, std::string_view machine) {
  const auto there = std::find_if(points.begin(), points.end(), [&](const auto& one) { return one.number == number; });
  if (there != points.end()) return &*there;
  return refuse(ErrorCode::bad_input, "points: {} has no point {}", machine, number);
}

Result<void> check_once(const std::vector<int>& numbers) {
  std::set<int> seen;
  for (const int number : numbers) {
    if (!seen.insert(number).second) return refuse(ErrorCode::bad_input, "points: {} is there twice", number);
  }
  return {};
}

Result<void> check_place(const PointPlace& place) {
  if (place.x >= 0 && place.x <= 1 && place.y >= 0 && place.y <= 1) return {};
  return refuse(ErrorCode::bad_input, "points: {} at ({}, {}) is beside the plan; x and y are 0 to 1", place.number,
                place.x, place.y);
}

// The machine's points with the places that the edit gives them. The caller holds a lock.
Result<std::vector<Point>> moved(const OpenMachine& machine, const PointsEdit& edit) {
  if (edit.points.empty()) return refuse(ErrorCode::bad_input, "points: there has to be one at least");
  std::vector<int> numbers;
  for (const PointPlace& place : edit.points) numbers.push_back(place.number);
  HW_TRY(check_once(numbers));
  std::vector<Point> points = machine.record.points;
  for (const PointPlace& place : edit.points) {
    HW_TRY(check_place(place));
    HW_TAKE(point, find_point(points, place.number, machine.record.machine.key));
    point->x = place.x;
    point->y = place.y;
  }
  return points;
}

// Numbers of the machine's points, each once. The caller holds a lock.
Result<void> check_order(const OpenMachine& machine, const std::vector<int>& order) {
  HW_TRY(check_once(order));
  std::vector<Point> points = machine.record.points;
  for (const int number : order) HW_TRY(find_point(points, number, machine.record.machine.key));
  return {};
}

std::string says(const std::vector<PointPlace>& places) {
  std::vector<std::string> texts;
  for (const auto& place : places)
    texts.push_back(fmt::format("{} to ({:.3f}, {:.3f})", place.number, place.x, place.y));
  return fmt::format("points moved on the plan: {}", fmt::join(texts, ", "));
}

std::string says(const std::vector<int>& order) {
  if (order.empty()) return "walking order: computed from the points' places";
  return fmt::format("walking order by hand: {}", fmt::join(order, ", "));
}

}  // namespace

Result<EntryView> move_points(OpenShop& shop, std::string_view key, const PointsEdit& edit, Instant now) {
  HW_TRY(check_signature(edit.id, edit.by));
  const auto turn = shop.edit();
  HW_TAKE(machine, shop.find(key));
  HW_TAKE(before, repeated(shop, edit.id, {"points moved", key}));
  if (before) return view_of(*before);
  Entry entry;
  std::vector<Point> points;
  {
    const auto lock = shop.look();
    HW_TAKE(places, moved(*machine, edit));
    HW_TAKE(made, new_entry(shop, *machine, "points moved", {edit.id, edit.by, {}, {}}, now));
    points = std::move(places);
    entry = std::move(made);
  }
  entry.body.points = edit.points;
  entry.says = says(edit.points);
  HW_TAKE(writing, shop.store().begin());
  HW_TRY(writing->add_entry(entry));
  HW_TRY(writing->put_points(entry.machine, points));
  HW_TRY(writing->commit());
  const auto lock = shop.change();
  machine->record.points = std::move(points);
  ++machine->tasks_version;
  return view_of(entry);
}

Result<EntryView> change_walk(OpenShop& shop, std::string_view key, const WalkOrderEdit& edit, Instant now) {
  HW_TRY(check_signature(edit.id, edit.by));
  const auto turn = shop.edit();
  HW_TAKE(machine, shop.find(key));
  HW_TAKE(before, repeated(shop, edit.id, {"walk changed", key}));
  if (before) return view_of(*before);
  Entry entry;
  {
    const auto lock = shop.look();
    HW_TRY(check_order(*machine, edit.points));
    HW_TAKE(made, new_entry(shop, *machine, "walk changed", {edit.id, edit.by, {}, {}}, now));
    entry = std::move(made);
  }
  entry.body.order = edit.points;
  entry.says = says(edit.points);
  HW_TAKE(writing, shop.store().begin());
  HW_TRY(writing->add_entry(entry));
  HW_TRY(writing->put_walk(entry.machine, edit.points));
  HW_TRY(writing->commit());
  const auto lock = shop.change();
  machine->record.walk = edit.points;
  ++machine->tasks_version;
  return view_of(entry);
}

}  // namespace hw::service
