#include "src/sheets/label_request.h"
#include "src/web/answers.h"
#include "src/web/routes.h"

namespace hw::web {
namespace {

http::Response labels(const ApiParts& parts, const http::Request& request) {
  std::vector<sheets::LabelSetting> settings;
  for (const auto& [name, value] : request.query) settings.push_back({name, value});
  std::vector<sheets::LabelledMachine> machines;
  {
    const auto lock = parts.shop.look();
    for (const auto& machine : parts.shop.machines()) {
      machines.push_back(sheets::labelled(machine->record.machine, parts.shop.record()));
    }
  }
  const auto order = parse_label_order(settings, machines);
  if (!order) return http::problem(order.error());
  auto pdf = sheets::print_labels(*order);
  if (!pdf) return http::problem(pdf.error());
  return http::Response::of(200, "application/pdf", *std::move(pdf));
}

}  // namespace

void add_label_routes(http::Router& router, const ApiParts& parts) {
  router.add("GET", "/api/labels.pdf",
             guarded([parts](const http::Request& request) { return labels(parts, request); }));
}

}  // namespace hw::web
