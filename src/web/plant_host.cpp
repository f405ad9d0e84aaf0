#include "src/web/plant_host.h"

#include "libs/values/small_letters.h"
#include "src/service/plants.h"
#include "src/web/origin_check.h"

namespace hw::web {
namespace {

bool is_groups(std::string_view host, const Reach& group) { return is_name_of_this_computer(host) || group.has(host); }

}  // namespace

std::optional<std::string> plant_of_host(std::string_view host, const Reach& group) {
  if (is_groups(host, group)) return service::group_key;
  const auto dot = host.find('.');
  if (dot == std::string_view::npos || dot == 0 || !is_groups(host.substr(dot + 1), group)) return std::nullopt;
  return in_small_letters(host.substr(0, dot));
}

std::unique_ptr<Reach> reach_of_plant(const std::string& plant, const Reach& group) {
  std::vector<certificates::HostName> names;
  for (const certificates::HostName& name : group.names()) {
    if (auto below = certificates::parse_host_name(plant + "." + print_in_url(name))) names.push_back(*below);
  }
  const bool is_group = plant == service::group_key;
  auto reach = std::make_unique<Reach>(is_group ? group.names() : std::move(names));
  reach->set_lines(group.lines());
  if (const auto served = group.served(); served && is_group) reach->set_served(*served);
  return reach;
}

}  // namespace hw::web
