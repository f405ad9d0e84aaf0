#pragma once
// What the command line leaves in a data folder for the server, beside a running one or before it starts: one file in
// grants/ for each secret that it printed, named by the secret's SHA-256. Nobody can come in with what stands in it.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "src/service/access_rows.h"

namespace hw::storage {

// On disk when it returns, readable by the folder's owner only. Refuses disk_full.
Result<void> write_grant(const std::filesystem::path& folder, const std::string& secret_hash,
                         const service::Grant& grant);

// Nothing where there is no such file. Refuses (corrupt) one that does not read.
Result<std::optional<service::Grant>> read_grant(const std::filesystem::path& folder, const std::string& secret_hash);
// That it is gone already is right.
Result<void> drop_grant(const std::filesystem::path& folder, const std::string& secret_hash);

// The hashes of the secrets for which something was left, in any order.
std::vector<std::string> left_grants(const std::filesystem::path& folder);

}  // namespace hw::storage
