#include "src/service/stores_entries.h"

#include <fmt/ranges.h>

#include "libs/formats/enum_words.h"

namespace hw::service {
namespace {

constexpr std::size_t told_lines_max = 20;
constexpr std::size_t said_lines_max = 6;

ToldLine told_line(const Stores& stores, const std::string& number, std::optional<double> quantity) {
  const auto there = stores.parts().find(number);
  if (there == stores.parts().end()) return {number, "", quantity, {}};
  const catalogue::StoredPart& part = there->second.part;
  return {number, part.title, quantity, quantity ? std::optional{part.unit} : std::nullopt};
}

std::string said_line(const ToldLine& line) {
  const std::string name = fmt::format("{} ({})", line.title, line.part);
  return line.quantity ? fmt::format("{:g} {} {}", *line.quantity, line.unit.value_or(""), name) : name;
}

void tell_lines(StoresTold& told, std::vector<ToldLine> lines) {
  told.parts = static_cast<int>(lines.size());
  if (lines.size() > told_lines_max) lines.resize(told_lines_max);
  told.lines = std::move(lines);
}

// "2 piece Return filter (F-104), 1 set Seal (S-3) and 4 more".
std::string said_lines(const StoresTold& told) {
  std::vector<std::string> said;
  for (const ToldLine& line : told.lines) {
    if (said.size() < said_lines_max) said.push_back(said_line(line));
  }
  const int more = told.parts - static_cast<int>(said.size());
  return fmt::format("{}{}", fmt::join(said, ", "), more > 0 ? fmt::format(" and {} more", more) : "");
}

void tell(Entry& entry, StoresText text, StoresTold told) {
  entry.body.stores = std::move(text);
  entry.body.stores_told = std::move(told);
}

}  // namespace

void tell_parts(Entry& entry, std::vector<catalogue::StoredPart> parts) {
  StoresTold told;
  std::vector<ToldLine> lines;
  for (const auto& part : parts) lines.push_back({part.number, part.title, {}, {}});
  tell_lines(told, std::move(lines));
  entry.says = fmt::format("kept in the stores: {}", said_lines(told));
  tell(entry, {.parts = std::move(parts)}, std::move(told));
}

void tell_part_ended(Entry& entry, const catalogue::StoredPart& part) {
  StoresTold told;
  tell_lines(told, {{part.number, part.title, {}, {}}});
  entry.says = fmt::format("not kept any more: {}", said_lines(told));
  tell(entry, {.ended = part.number}, std::move(told));
}

void tell_sheet(Entry& entry, const SheetEdit& edit) {
  StoresTold told;
  std::vector<ToldLine> lines;
  for (const auto& part : edit.parts) lines.push_back({part.number, part.title, {}, {}});
  tell_lines(told, std::move(lines));
  entry.says = fmt::format("a sheet was read: {} parts, {} counted", edit.parts.size(), edit.counts.size());
  StoresText text{.parts = edit.parts, .sheet = edit.sha256};
  if (!edit.counts.empty()) {
    text.movements = std::vector{MovementText{.kind = kits::MovementKind::counted, .lines = edit.counts}};
  }
  tell(entry, std::move(text), std::move(told));
}

void tell_kit(Entry& entry, const catalogue::Kit& kit, const std::string& title, const Stores& stores) {
  StoresTold told;
  std::vector<ToldLine> lines;
  for (const auto& line : kit.lines) lines.push_back(told_line(stores, line.part, line.quantity));
  tell_lines(told, std::move(lines));
  entry.body.title = title;
  entry.says = kit.lines.empty() ? fmt::format("{}: laid out as the task says", title)
                                 : fmt::format("{}: laid out: {}", title, said_lines(told));
  tell(entry, {.kit = kit}, std::move(told));
}

void tell_movements(Entry& entry, std::vector<MovementText> movements, const Stores& stores) {
  StoresTold told;
  std::vector<ToldLine> lines;
  for (const MovementText& movement : movements) {
    for (const MovedPart& line : movement.lines) lines.push_back(told_line(stores, line.part, line.quantity));
  }
  tell_lines(told, std::move(lines));
  if (movements.size() == 1) told.kind = formats::print_word(movements.front().kind);
  entry.body.why = movements.front().why;
  entry.says = fmt::format("{}: {}", told.kind.value_or("used, not as it was taken"), said_lines(told));
  tell(entry, {.movements = std::move(movements)}, std::move(told));
}

void tell_order(Entry& entry, const OrderText& order, const Stores& stores) {
  StoresTold told{.supplier = order.supplier, .reference = order.reference, .confirmed_on = order.confirmed_on};
  std::vector<ToldLine> lines;
  for (const OrderLineText& line : order.lines) lines.push_back(told_line(stores, line.part, line.quantity));
  tell_lines(told, std::move(lines));
  entry.note = order.note;
  entry.says = fmt::format("ordered from {}: {}", order.supplier, said_lines(told));
  tell(entry, {.order = order}, std::move(told));
}

void tell_order_news(Entry& entry, const OrderRecord& order, const OrderNews& news) {
  StoresTold told{
      .supplier = order.text.supplier, .reference = order.text.reference, .confirmed_on = news.confirmed_on};
  entry.body.why = news.why;
  entry.says = news.ended.value_or(false)
                   ? fmt::format("order with {}: the rest does not come any more", order.text.supplier)
                   : fmt::format("order with {}: comes on {}", order.text.supplier, print(*news.confirmed_on));
  tell(entry, {.news = news}, std::move(told));
}

Result<std::optional<Entry>> said_before(const OpenShop& shop, std::string_view id, const EditPlace& place,
                                         const std::function<bool(const StoresText&)>& is_same) {
  HW_TAKE(before, repeated(shop, id, place));
  if (!before || (before->body.stores && is_same(*before->body.stores))) return std::move(before);
  return refuse(ErrorCode::conflict, id_used, "id: {} was sent before and said something else; an id is used once", id);
}

Result<const PartRecord*> find_part(const Stores& stores, std::string_view number) {
  if (const PartRecord* part = stores.part(number)) return part;
  return refuse(ErrorCode::bad_input, Saying{"no-stored-part", {{"part", std::string{number.substr(0, 60)}}}},
                "part: the stores do not keep \"{}\"", number.substr(0, 60));
}

Result<const PartRecord*> find_part_ever(const Stores& stores, std::string_view number) {
  const auto there = stores.parts().find(number);
  if (there != stores.parts().end() && !there->second.part.number.empty()) return &there->second;
  return find_part(stores, number);
}

Result<const OrderRecord*> find_order(const Stores& stores, std::string_view id) {
  if (const OrderRecord* order = stores.order(id)) return order;
  return refuse(ErrorCode::not_found, Saying{"no-order"}, "there is no order {}", id.substr(0, 40));
}

Result<void> keep_in_stores(OpenShop& shop, Entry& entry) {
  HW_TRY(keep(shop.store(), entry));
  const auto lock = shop.change();
  shop.stores().take({&entry, 1});
  return {};
}

}  // namespace hw::service
