#pragma once
// What a person would look at in a data folder, for `hourwright doctor`.

#include <filesystem>

#include "src/service/examined.h"

namespace hw::storage {

// Looks, beside a server or without one, and changes nothing: folder, disk, who may read it, room, whether the database
// holds together, its tables' version, its logbook with what follows from it and its photos, and the clock against the
// last entry and the files. What cannot be looked at because something before it failed is left out.
service::Examined examine(const std::filesystem::path& data, Instant now);

}  // namespace hw::storage
