#include "src/service/stores_edits.h"

#include <cmath>
#include <set>

#include "libs/values/characters.h"

namespace hw::service {
namespace {

constexpr double moved_max = 1e9;
constexpr std::size_t serial_max = 60, supplier_name_max = 200, order_reference_max = 100;

Result<void> check_count(std::size_t count, std::size_t most) {
  if (count == 0) return refuse(ErrorCode::bad_input, "lines: name one part at least");
  if (count <= most) return {};
  return refuse(ErrorCode::bad_input, "lines: {} are too many; at most {}", count, most);
}

Result<void> check_serials(const MovedPart& line) {
  std::set<std::string_view> seen;
  for (const std::string& serial : line.serials.value_or(std::vector<std::string>{})) {
    if (serial.empty() || characters_in(serial) > serial_max) {
      return refuse(ErrorCode::bad_input, "serials: a serial number has 1 to {} characters", serial_max);
    }
    if (!seen.insert(serial).second) return refuse(ErrorCode::bad_input, "serials: \"{}\" stands twice", serial);
  }
  return {};
}

Result<void> check_one(const MovedPart& line, Zero zero) {
  const bool is_amount = std::isfinite(line.quantity) && line.quantity <= moved_max &&
                         (zero == Zero::allowed ? line.quantity >= 0 : line.quantity > 0);
  if (is_amount) return check_serials(line);
  if (line.quantity < 0) {
    return refuse(
        ErrorCode::bad_input, Saying{"stock-below-nothing", {{"part", line.part}}},
        "quantity: {} of {}: less than nothing cannot be; what is missing shows as a difference when somebody "
        "counts",
        line.quantity, line.part);
  }
  return refuse(ErrorCode::bad_input, "quantity: {} of {} must be above 0", line.quantity, line.part);
}

Result<void> check_optional(std::string_view field, const std::optional<std::string>& text, std::size_t most) {
  if (!text || characters_in(*text) <= most) return {};
  return refuse(ErrorCode::bad_input, Saying{"text-length", {}, {{"most", static_cast<double>(most)}}},
                "{}: say it in at most {} characters", field, most);
}

}  // namespace

Result<void> check_moved(std::span<const MovedPart> lines, Zero zero) {
  std::set<std::string_view> seen;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string place = fmt::format("lines[{}]", i);
    if (auto checked = check_one(lines[i], zero); !checked) return refuse(checked.error().at(place));
    if (seen.insert(lines[i].part).second) continue;
    return refuse(ErrorCode::bad_input, "{}.part: \"{}\" is named twice; add the quantities up", place, lines[i].part);
  }
  return {};
}

Result<void> check(const MovementEdit& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_count(edit.lines.size(), moved_lines_max));
  HW_TRY(check_note(edit.why));
  if (edit.order && edit.kind != kits::MovementKind::received) {
    return refuse(ErrorCode::bad_input, "order: only what is received is a delivery of an order");
  }
  return check_moved(edit.lines, edit.kind == kits::MovementKind::counted ? Zero::allowed : Zero::refused);
}

Result<void> check(const OrderEdit& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_text("supplier", edit.supplier));
  HW_TRY(check_optional("supplier", edit.supplier, supplier_name_max));
  HW_TRY(check_optional("reference", edit.reference, order_reference_max));
  HW_TRY(check_note(edit.note));
  HW_TRY(check_count(edit.lines.size(), order_lines_max));
  std::vector<MovedPart> lines;
  for (const OrderLineText& line : edit.lines) {
    if (line.price && !(*line.price >= 0 && *line.price <= 1e7)) {
      return refuse(ErrorCode::bad_input, "price: {} of {} must be 0 to 10000000", *line.price, line.part);
    }
    lines.push_back({line.part, line.quantity});
  }
  return check_moved(lines, Zero::refused);
}

Result<void> check(const OrderChange& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_note(edit.why));
  if (edit.confirmed_on || edit.ended.value_or(false)) return {};
  return refuse(ErrorCode::bad_input, Saying{"changes-nothing"},
                "it changes nothing; right is confirmed_on, or ended true");
}

}  // namespace hw::service
