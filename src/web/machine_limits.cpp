#include "src/web/machine_limits.h"

#include "libs/http/problem.h"

namespace hw::web {
namespace {

std::optional<std::string_view> in_path(const http::Request& request, std::string_view name) {
  for (const auto& value : request.path_values) {
    if (value.name == name) return value.value;
  }
  return std::nullopt;
}

template <class Thing>
std::optional<std::string> machine_in(const Result<std::optional<Thing>>& thing) {
  return thing && *thing ? std::optional<std::string>{(*thing)->machine} : std::nullopt;
}

// The machine that the request is about.
std::optional<std::string> machine_of(service::OpenShop& shop, const http::Request& request) {
  if (const auto machine = in_path(request, "machine")) return std::string{*machine};
  if (const auto finding = in_path(request, "finding")) return machine_in(shop.store().finding(*finding));
  if (const auto stop = in_path(request, "stop")) return machine_in(shop.store().stop(*stop));
  if (const auto entry = in_path(request, "entry")) return machine_in(shop.store().entry(*entry));
  if (const auto machine = request.query_value("machine")) return std::string{*machine};
  return std::nullopt;
}

}  // namespace

bool reaches(const http::Request& request, std::string_view machine) {
  const auto& all = request.limited_to;
  return !all || std::find(all->begin(), all->end(), machine) != all->end();
}

std::optional<http::Response> check_machine(service::OpenShop& shop, const http::Request& request) {
  const auto machine = machine_of(shop, request);
  if (!machine || reaches(request, *machine)) return std::nullopt;
  return http::problem({ErrorCode::not_allowed,
                        fmt::format("{}: the account is limited to other machines", machine->substr(0, 60)),
                        Saying{"not-your-machine", {{"machine", machine->substr(0, 60)}}}});
}

}  // namespace hw::web
