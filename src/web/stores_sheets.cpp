#include "src/web/stores_sheets.h"

#include <algorithm>

#include <boost/json/parse.hpp>
#include <boost/json/serialize.hpp>
#include <fmt/ranges.h>

#include "libs/formats/json.h"

namespace hw::web {
namespace {

constexpr std::size_t rows_named = 20;

sheets::OrderListLine line_of(const service::PartProposalView& line) {
  return {line.part, line.title, line.reference.value_or(""), line.quantity, line.unit, line.price, line.first_need};
}

sheets::OrderListLine line_of(const service::OrderLineView& line) {
  return {line.part, line.title, line.reference.value_or(""), line.quantity, line.unit, line.price, {}};
}

}  // namespace

std::vector<sheets::PartOnHand> StoresBook::rows() const {
  std::vector<sheets::PartOnHand> rows;
  for (const auto& part : parts) {
    const double book = on_hand.at(part.number);
    rows.push_back({part, book < 0 ? std::nullopt : std::optional{book}});
  }
  return rows;
}

StoresBook book_of(const service::OpenShop& shop) {
  const auto lock = shop.look();
  StoresBook book;
  book.parts = shop.stores().present_parts();
  for (const auto& part : book.parts) {
    const service::PartRecord& record = *shop.stores().part(part.number);
    book.on_hand[part.number] = record.shelf.difference < 0 ? -1 : record.shelf.book;
    if (!record.moves.empty()) book.moved.insert(part.number);
  }
  return book;
}

std::string print_look(const catalogue::SheetLook& look) {
  auto tree = boost::json::parse(formats::print_json(look)).as_object();
  tree["new"] = look.added;
  return boost::json::serialize(tree);
}

Result<void> check_without_mistakes(const catalogue::PartsSheet& sheet) {
  if (sheet.mistaken.empty()) return {};
  std::vector<std::int64_t> named;
  for (std::size_t i = 0; i < std::min(sheet.mistaken.size(), rows_named); ++i) named.push_back(sheet.mistaken[i].row);
  const std::string rows =
      fmt::format("{}{}", fmt::join(named, ", "), sheet.mistaken.size() > rows_named ? ", ..." : "");
  const auto& first = sheet.mistaken.front().mistakes.front();
  return refuse(ErrorCode::bad_input, Saying{"sheet-mistakes", {{"rows", rows}}},
                "rows with mistakes: {}; nothing was taken over. The first one: {}", rows, first.says);
}

sheets::OrderList OrdersFrom::empty_list(std::string_view supplier) const {
  sheets::OrderList list;
  const auto lock = shop_.look();
  list.plant = shop_.record().plant;
  list.currency = shop_.record().stopping.currency;
  list.supplier = supplier;
  list.on = orders_.today;
  return list;
}

sheets::OrderList OrdersFrom::list_of(const service::OrderProposalView& proposal) const {
  sheets::OrderList list = empty_list(proposal.supplier);
  for (const auto& line : proposal.lines) list.lines.push_back(line_of(line));
  return list;
}

sheets::OrderList OrdersFrom::list_of(const service::OrderView& order) const {
  sheets::OrderList list = empty_list(order.supplier);
  list.on = shop_.calendar().zone.date_of(order.at);
  list.reference = order.reference.value_or("");
  list.note = order.note.value_or("");
  for (const auto& line : order.lines) list.lines.push_back(line_of(line));
  return list;
}

std::vector<sheets::OrderList> OrdersFrom::proposed_today() const {
  std::vector<sheets::OrderList> lists;
  for (const auto& proposal : orders_.proposals) {
    if (proposal.due != "soon") lists.push_back(list_of(proposal));
  }
  return lists;
}

Result<std::vector<sheets::OrderList>> OrdersFrom::proposed_for(std::string_view supplier) const {
  std::vector<sheets::OrderList> lists;
  for (const auto& proposal : orders_.proposals) {
    if (proposal.supplier == supplier) lists.push_back(list_of(proposal));
  }
  if (!lists.empty()) return lists;
  return refuse(ErrorCode::not_found, "supplier: nothing is proposed to be ordered of \"{}\"", supplier.substr(0, 60));
}

}  // namespace hw::web
