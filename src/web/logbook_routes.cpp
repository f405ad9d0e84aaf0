#include <algorithm>
#include <array>

#include "src/sheets/logbook_table.h"
#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

using http::Request;
using http::Response;
using service::LogbookQuery;

constexpr std::array<std::string_view, 9> filter_names = {"machine", "kind",  "by",     "from", "to",
                                                          "text",    "stray", "before", "count"};

// A misspelt filter would show more than was asked for, so nothing unknown is passed over.
Result<void> check_names(const Request& request) {
  for (const auto& [name, value] : request.query) {
    if (std::find(filter_names.begin(), filter_names.end(), name) != filter_names.end()) continue;
    return refuse(ErrorCode::bad_input, "{}: there is no such filter; right are {}", name.substr(0, 60),
                  fmt::join(filter_names, ", "));
  }
  return {};
}

std::optional<std::string> query_text(const Request& request, std::string_view name) {
  const auto text = request.query_value(name);
  return text ? std::optional{std::string{*text}} : std::nullopt;
}

Result<LogbookQuery> query_of(const Request& request) {
  HW_TRY(check_names(request));
  LogbookQuery query;
  query.machine = query_text(request, "machine");
  query.kind = query_text(request, "kind");
  query.by = query_text(request, "by");
  query.text = query_text(request, "text");
  HW_TAKE(first, query_date(request, "from"));
  HW_TAKE(last, query_date(request, "to"));
  query.first = first;
  query.last = last;
  const auto stray = request.query_value("stray");
  if (stray && *stray != "yes") return refuse(ErrorCode::bad_input, "stray: it is yes or left out");
  query.only_strays = stray.has_value();
  HW_TAKE(before, query_number<std::int64_t>(request, "before"));
  HW_TAKE(count, query_number<int>(request, "count"));
  query.before = before;
  query.count = count.value_or(query.count);
  return query;
}

Result<service::LogbookView> page(const ApiParts& parts, const Request& request) {
  HW_TAKE(query, query_of(request));
  return show_logbook(parts.shop, query);
}

Response table(const ApiParts& parts, const Request& request) {
  const auto query = query_of(request);
  if (!query) return http::problem(query.error());
  const auto entries = list_logbook(parts.shop, *query);
  if (!entries) return http::problem(entries.error());
  Response response =
      Response::of(200, "text/csv; charset=utf-8", sheets::print_logbook(*entries, parts.shop.calendar().zone));
  response.headers.set("Content-Disposition", "attachment; filename=\"logbook.csv\"");
  return response;
}

}  // namespace

void add_logbook_routes(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/logbook", guarded([parts](const Request& request) { return answer(page(parts, request)); }));
  router.add("GET", "/api/logbook.csv", guarded([parts](const Request& request) { return table(parts, request); }));
  router.add("GET", "/api/logbook/proof",
             guarded([parts](const Request&) { return answer(prove_logbook(parts.shop)); }));
  router.add("POST", "/api/entries/{entry}/correct", guarded([parts](const Request& request) {
               return answer_edit<service::CorrectionEdit>(request, [&](const auto& edit) {
                 return correct_entry(parts.shop, request.path_value("entry"), edit, parts.clock());
               });
             }));
}

}  // namespace hw::web
