#pragma once
// What `hourwright doctor` looks at besides the data folder itself.

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "libs/values/instant.h"
#include "src/service/check.h"
#include "src/service/records.h"

namespace hw::terminal {

struct DoctorCall {
  std::string data = ".";
  std::string listen = "127.0.0.1:8470";  // where the server is, or is to be
  std::optional<std::string> copies;      // the folder that `serve --copies` was told
};

// Whether the program's own files are all there: sets of tasks, contract, the built app.
service::Check share_check();

// Whether the plant's zone is known to this computer; without a shop, whether any is.
service::Check zone_check(const std::optional<service::ShopWithMachines>& shop);

// How long what is served over HTTPS lasts; nothing where there is none.
std::optional<service::Check> certificate_check(const std::filesystem::path& data, Instant now);

// The newest nightly copy by its name: its age.
service::Check copies_check(const DoctorCall& call, Instant now);

// Whether the server answers at the address, something else does, or nobody; and, from a server that lets us ask, its
// own checks, each named "server: ...".
std::vector<service::Check> server_checks(const DoctorCall& call);

// Whether each agent of the shop answers; it is named by its host alone, since an address may hold a password.
std::vector<service::Check> feed_checks(const service::ShopWithMachines& shop);

}  // namespace hw::terminal
