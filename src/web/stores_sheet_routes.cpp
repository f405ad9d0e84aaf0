#include "libs/formats/sheet.h"
#include "libs/values/sha256.h"
#include "src/service/stores_cases.h"
#include "src/sheets/label_request.h"
#include "src/sheets/order_list.h"
#include "src/sheets/parts_table.h"
#include "src/web/answers.h"
#include "src/web/routes.h"
#include "src/web/sheet_query.h"
#include "src/web/stores_sheets.h"

namespace hw::web {
namespace {

using http::Request;
using http::Response;
using sheets::CardLanguage;

constexpr std::string_view csv_type = "text/csv; charset=utf-8", text_type = "text/plain; charset=utf-8",
                           pdf_type = "application/pdf",
                           xlsx_type = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

// To be saved under that name.
Response saved_as(std::string name, std::string_view type, Result<std::string> bytes) {
  if (!bytes) return http::problem(bytes.error());
  Response response = Response::of(200, std::string{type}, *std::move(bytes));
  response.headers.set("Content-Disposition", fmt::format("attachment; filename=\"{}\"", name));
  return response;
}

Result<catalogue::PartsSheet> sheet_asked(const ApiParts& parts, const Request& request) {
  HW_TAKE(table, formats::read_sheet(request.body));
  const auto columns = request.query_value("columns");
  const StoresBook book = book_of(parts.shop);
  return read_parts_sheet(table, columns ? std::optional{std::string{*columns}} : std::nullopt, book.present());
}

Response look(const ApiParts& parts, const Request& request) {
  const auto sheet = sheet_asked(parts, request);
  return sheet ? Response::json(print_look(sheet->look)) : http::problem(sheet.error());
}

Response mistakes(const ApiParts& parts, const Request& request) {
  const auto language = query_language(request);
  if (!language) return http::problem(language.error());
  const auto sheet = sheet_asked(parts, request);
  if (!sheet) return http::problem(sheet.error());
  return saved_as("mistakes.csv", csv_type, print_mistakes(*sheet, *language));
}

std::uint64_t stores_version(const service::OpenShop& shop) {
  const auto lock = shop.look();
  return shop.stores().version();
}

Result<service::EntryView> read(const ApiParts& parts, const Request& request) {
  service::SheetEdit edit;
  edit.id = request.query_value("id").value_or("");
  edit.by = request.query_value("by").value_or("");
  HW_TRY(check_by(request, edit.by));
  edit.sha256 = print_hex(sha256(request.body));
  edit.seen = stores_version(parts.shop);
  HW_TAKE(sheet, sheet_asked(parts, request));
  HW_TRY(check_without_mistakes(sheet));
  edit.parts = std::move(sheet.parts);
  for (const auto& [number, found] : sheet.counts) {
    service::MovedPart count;
    count.part = number;
    count.quantity = found;
    edit.counts.push_back(std::move(count));
  }
  return read_sheet(parts.shop, edit, parts.clock());
}

Response stores_csv(const ApiParts& parts, const Request& request) {
  const auto language = query_language(request);
  if (!language) return http::problem(language.error());
  return saved_as("stores.csv", csv_type, print_parts_csv(book_of(parts.shop).rows(), *language));
}

Response stores_workbook(const ApiParts& parts, const Request& request) {
  const auto language = query_language(request);
  if (!language) return http::problem(language.error());
  return saved_as("stores.xlsx", xlsx_type, print_parts_workbook(book_of(parts.shop).rows(), *language));
}

Result<std::vector<sheets::OrderList>> orders_asked(const ApiParts& parts, const Request& request) {
  HW_TAKE(orders, show_orders(parts.shop, parts.stores, parts.clock()));
  const OrdersFrom from{parts.shop, orders};
  if (const auto order = request.query_value("order")) {
    HW_TAKE(placed, show_order(parts.shop, *order, parts.clock()));
    return std::vector{from.list_of(placed)};
  }
  if (const auto supplier = request.query_value("supplier")) return from.proposed_for(*supplier);
  return from.proposed_today();
}

using Lists = std::span<const sheets::OrderList>;

Response order_csv(Lists lists, CardLanguage language, sheets::CardPaper) {
  return saved_as("order.csv", csv_type, print_order_csv(lists, language));
}
Response order_workbook(Lists lists, CardLanguage language, sheets::CardPaper) {
  return saved_as("order.xlsx", xlsx_type, print_order_workbook(lists, language));
}
Response order_paper(Lists lists, CardLanguage language, sheets::CardPaper paper) {
  return Response::of(200, std::string{pdf_type}, print_order_paper(lists, language, paper));
}
Response order_mail(Lists lists, CardLanguage language, sheets::CardPaper) {
  return Response::of(200, std::string{text_type}, print_order_mail(lists, language));
}

template <Response (*print)(Lists, CardLanguage, sheets::CardPaper)>
Response order_list(const ApiParts& parts, const Request& request) {
  const auto language = query_language(request);
  if (!language) return http::problem(language.error());
  const auto paper = query_paper(request);
  if (!paper) return http::problem(paper.error());
  const auto lists = orders_asked(parts, request);
  return lists ? print(*lists, *language, *paper) : http::problem(lists.error());
}

Response labels(const ApiParts& parts, const Request& request) {
  std::vector<sheets::LabelSetting> settings;
  for (const auto& [name, value] : request.query) settings.push_back({name, value});
  const auto shelves = sheets::shelf_parts(book_of(parts.shop).parts);
  const auto order = parse_shelf_label_order(settings, shelves);
  if (!order) return http::problem(order.error());
  auto pdf = sheets::print_shelf_labels(*order);
  return pdf ? Response::of(200, std::string{pdf_type}, *std::move(pdf)) : http::problem(pdf.error());
}

}  // namespace

void add_stores_sheet_routes(http::Router& router, const ApiParts& parts) {
  const auto add = [&](std::string method, std::string pattern,
                       Response (*answering)(const ApiParts&, const Request&)) {
    router.add(std::move(method), std::move(pattern),
               guarded([parts, answering](const Request& request) { return answering(parts, request); }));
  };
  add("POST", "/api/stores/sheet/look", look);
  add("POST", "/api/stores/sheet/mistakes.csv", mistakes);
  router.add("POST", "/api/stores/sheet",
             guarded([parts](const Request& request) { return answer(read(parts, request)); }));
  add("GET", "/api/stores/sheet.csv", stores_csv);
  add("GET", "/api/stores/sheet.xlsx", stores_workbook);
  add("GET", "/api/stores/orders/list.csv", order_list<order_csv>);
  add("GET", "/api/stores/orders/list.xlsx", order_list<order_workbook>);
  add("GET", "/api/stores/orders/list.pdf", order_list<order_paper>);
  add("GET", "/api/stores/orders/list.txt", order_list<order_mail>);
  add("GET", "/api/stores/labels.pdf", labels);
}

}  // namespace hw::web
