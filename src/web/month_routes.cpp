#include "src/sheets/month_report.h"
#include "src/sheets/report_paper.h"
#include "src/sheets/report_workbook.h"
#include "src/web/answers.h"
#include "src/web/routes.h"
#include "src/web/sheet_query.h"

namespace hw::web {
namespace {

constexpr std::string_view xlsx_type = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

service::MonthQuery month_asked(const http::Request& request) {
  service::MonthQuery query;
  query.month = request.path_value("month");
  if (const auto machine = request.query_value("machine")) query.machine = *machine;
  if (const auto kind = request.query_value("kind")) query.kind = *kind;
  return query;
}

sheets::ReportNames report_names(const service::OpenShop& shop) {
  const auto lock = shop.look();
  sheets::ReportNames names{.plant = shop.record().plant, .zone = shop.calendar().zone, .machines = {}};
  for (const auto& machine : shop.machines()) {
    names.machines.emplace(machine->record.machine.key, machine->record.machine.name);
  }
  return names;
}

Result<sheets::Report> report(const ApiParts& parts, const http::Request& request) {
  HW_TAKE(language, query_language(request));
  HW_TAKE(month, show_month(parts.shop, month_asked(request), parts.clock()));
  return sheets::month_report(month, report_names(parts.shop), language);
}

http::Response paper(const ApiParts& parts, const http::Request& request) {
  const auto asked = query_paper(request);
  if (!asked) return http::problem(asked.error());
  const auto made = report(parts, request);
  if (!made) return http::problem(made.error());
  return http::Response::of(200, "application/pdf", sheets::print_report_paper(*made, *asked));
}

Result<std::string> workbook_text(const ApiParts& parts, const http::Request& request) {
  HW_TAKE(made, report(parts, request));
  return sheets::print_report_workbook(made);
}

http::Response workbook(const ApiParts& parts, const http::Request& request) {
  auto text = workbook_text(parts, request);
  if (!text) return http::problem(text.error());
  http::Response response = http::Response::of(200, std::string{xlsx_type}, *std::move(text));
  response.headers.set("Content-Disposition",
                       fmt::format("attachment; filename=\"month-{}.xlsx\"", request.path_value("month")));
  return response;
}

}  // namespace

void add_month_routes(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/months/{month}", guarded([parts](const http::Request& request) {
               return answer(show_month(parts.shop, month_asked(request), parts.clock()));
             }));
  router.add("GET", "/api/months/{month}/report.pdf",
             guarded([parts](const http::Request& request) { return paper(parts, request); }));
  router.add("GET", "/api/months/{month}/report.xlsx",
             guarded([parts](const http::Request& request) { return workbook(parts, request); }));
}

}  // namespace hw::web
