#pragma once
// The table of photos: the bytes as they were sent, with the SHA-256 by which entries name them.

#include "libs/sql/connection.h"
#include "src/service/records.h"

namespace hw::storage {

// Refuses (conflict) an id that is there.
Result<void> insert_photo(sql::Connection& db, const service::Photo& photo);
Result<std::optional<service::Photo>> read_photo(sql::Connection& db, std::string_view id);

}  // namespace hw::storage
