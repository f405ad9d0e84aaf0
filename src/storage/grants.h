#pragma once
// What the command line leaves for whoever comes with a secret that it prints: in the data folder beside a file, in the
// database where that is on a server.

#include <filesystem>
#include <string>

#include "src/service/access_rows.h"

namespace hw::storage {

// A new secret, for which the grant is on disk when it returns. Refuses what find_store and open_database refuse,
// not_found where no shop has been founded, and disk_full.
Result<std::string> leave_grant(const std::filesystem::path& folder, const service::Grant& grant);

}  // namespace hw::storage
