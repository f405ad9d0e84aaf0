#pragma once
// The contract's table of who may what (x-permissions), the roles that work at a desk (x-office-roles) and the
// permission of each operation (x-permission), as they stand in api/openapi.yaml: the one place where they are said.

#include <filesystem>
#include <map>

#include "libs/http/router.h"
#include "src/access/permission_table.h"

namespace hw::web {

struct AccessTable {
  access::PermissionTable permissions;
  std::map<http::Route, std::string> permission_of;  // by operation
};

// From the contract as JSON. Refuses (corrupt) an operation without a permission, a permission that is not in the
// table, a role that there is not, a contract without one of the two tables.
Result<AccessTable> read_access_table(std::string_view contract_json);

// The contract of the folder with the program's own files, as JSON. Refuses (not_found, bad_input).
Result<std::string> read_contract(const std::filesystem::path& share);

}  // namespace hw::web
