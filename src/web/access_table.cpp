#include "src/web/access_table.h"

#include <algorithm>
#include <fstream>
#include <sstream>

#include <boost/json/parse.hpp>

#include "src/web/contract.h"

namespace hw::web {
namespace {

namespace json = boost::json;

std::string text_of(const json::value& value) { return value.is_string() ? std::string{value.as_string()} : ""; }

Result<std::set<access::Role>> roles_in(const json::array& words) {
  std::set<access::Role> roles;
  for (const json::value& word : words) {
    HW_TAKE(role, access::parse_role(text_of(word)));
    roles.insert(role);
  }
  return roles;
}

Result<access::PermissionTable> read_roles(const json::object& contract) {
  access::PermissionTable table;
  const auto* const all = contract.if_contains("x-permissions");
  if (!all || !all->is_object()) return refuse(ErrorCode::corrupt, "the contract has no x-permissions");
  for (const auto& [permission, row] : all->as_object()) {
    const auto* const roles = row.is_object() ? row.as_object().if_contains("roles") : nullptr;
    if (!roles || !roles->is_array()) {
      return refuse(ErrorCode::corrupt, "the contract's x-permissions.{} names no roles", std::string{permission});
    }
    HW_TAKE(all_of_it, roles_in(roles->as_array()));
    table.roles[std::string{permission}] = std::move(all_of_it);
  }
  const auto* const office = contract.if_contains("x-office-roles");
  if (!office || !office->is_array()) return refuse(ErrorCode::corrupt, "the contract has no x-office-roles");
  HW_TAKE(office_roles, roles_in(office->as_array()));
  table.office = std::move(office_roles);
  return table;
}

bool is_permission(const access::PermissionTable& table, const std::string& word) {
  return word == access::open_permission || word == access::self_permission || table.roles.contains(word);
}

Result<void> read_operations(const std::string& path, const json::object& item, AccessTable& table) {
  for (const auto& [method, operation] : item) {
    if (method == "parameters") continue;
    const auto* const said = operation.as_object().if_contains("x-permission");
    const std::string permission = said ? text_of(*said) : "";
    if (!is_permission(table.permissions, permission)) {
      return refuse(ErrorCode::corrupt, "the contract's {} {}: x-permission \"{}\" is not in x-permissions",
                    std::string{method}, path, permission);
    }
    std::string upper{method};
    std::transform(upper.begin(), upper.end(), upper.begin(),
                   [](char c) { return static_cast<char>(std::toupper(static_cast<unsigned char>(c))); });
    table.permission_of[{upper, path}] = permission;
  }
  return {};
}

}  // namespace

Result<AccessTable> read_access_table(std::string_view contract_json) {
  boost::system::error_code error;
  const json::value contract = json::parse(contract_json, error);
  const auto* const paths = !error && contract.is_object() ? contract.as_object().if_contains("paths") : nullptr;
  if (!paths || !paths->is_object()) return refuse(ErrorCode::corrupt, "the contract has no paths");
  AccessTable table;
  HW_TAKE(permissions, read_roles(contract.as_object()));
  table.permissions = std::move(permissions);
  for (const auto& [path, item] : paths->as_object()) HW_TRY(read_operations(path, item.as_object(), table));
  return table;
}

Result<std::string> read_contract(const std::filesystem::path& share) {
  const auto file = share / "api" / "openapi.yaml";
  std::ifstream in(file);
  if (!in) return refuse(ErrorCode::not_found, "{} is missing; it belongs to the program", file.string());
  std::stringstream text;
  text << in.rdbuf();
  auto contract = json_of_yaml(text.str());
  if (!contract) return refuse(contract.error().at(file.string()));
  return contract;
}

}  // namespace hw::web
