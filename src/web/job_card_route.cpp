#include "src/sheets/stop_card.h"
#include "src/web/answers.h"
#include "src/web/routes.h"
#include "src/web/sheet_query.h"

namespace hw::web {
namespace {

// Where the code leads: as phones reach the server, else as whoever asks does.
std::string base_address(const ApiParts& parts, const http::Request& request) {
  if (const auto base = request.query_value("base")) return std::string{*base};
  const auto addresses = parts.reach.addresses();
  if (!addresses.empty()) return addresses.front();
  return fmt::format("{}://{}", request.is_tls ? "https" : "http", request.headers.find("host").value_or("localhost"));
}

Result<sheets::JobCard> shown_card(const ApiParts& parts, const http::Request& request, sheets::CardLanguage language) {
  HW_TAKE(view, show_stop(parts.shop, request.path_value("stop"), parts.clock()));
  const auto lock = parts.shop.look();
  HW_TAKE(machine, parts.shop.find(view.machine.key));
  auto card = sheets::job_card_of(view, machine->record, parts.shop.record(), language);
  HW_TAKE(address, sheets::stop_address(base_address(parts, request), view.stop.id));
  card.address = std::move(address);
  return card;
}

Result<std::string> job_card(const ApiParts& parts, const http::Request& request) {
  HW_TAKE(paper, query_paper(request));
  HW_TAKE(language, query_language(request));
  HW_TAKE(card, shown_card(parts, request, language));
  return print_job_card(card, paper, language);
}

}  // namespace

void add_job_card_route(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/stops/{stop}/card.pdf", guarded([parts](const http::Request& request) {
               auto pdf = job_card(parts, request);
               if (!pdf) return http::problem(pdf.error());
               return http::Response::of(200, "application/pdf", *std::move(pdf));
             }));
}

}  // namespace hw::web
