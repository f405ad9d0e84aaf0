#pragma once
// A small shop with something of everything in it, and what its database holds as one hash.

#include <filesystem>
#include <string>
#include <vector>

#include "tests/shop/scene.h"

namespace hw::shop {

// Stands in everything that is secret or personal: names, notes, photos, keys, the secrets of devices.
inline constexpr std::string_view secret_mark = "Quarkella";

// Five days of use on two machines, tasks done and one taken back, a finding, hour readings, a device, a photo, and
// keys in tls. All of it is stored.
void fill(Scene& scene);

// The columns of a database's tables: "task(plant, machine, ...)" each.
std::vector<std::string> columns_in(const std::filesystem::path& data);
// SHA-256 over all rows of those columns, whatever else there is. Refused where one of them is not there.
std::string digest_of(const std::filesystem::path& data, const std::vector<std::string>& columns);
// Over all of its tables.
std::string whole_digest(const std::filesystem::path& data);

// Runs a script on the closed database, past its triggers.
void meddle(const std::filesystem::path& data, const std::string& script);

}  // namespace hw::shop
