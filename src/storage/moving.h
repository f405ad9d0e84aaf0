#pragma once
// A shop moved from the file of its data folder into a database on a server, for good.
//
// In order: the rows go over in one transaction; both sides are hashed; the folder is noted as moving; the transaction
// is committed; the file gets another name; the note says where the shop lies. Broken off before the commit, there is
// nothing in the database, and said again it begins anew; broken off after it, said again it does what was left. In
// between nobody opens the folder (database_place.h), so that a shop is never served in two places.

#include <filesystem>
#include <string>

#include "libs/values/result.h"
#include "src/copies/move_report.h"

namespace hw::storage {

// The file's new name. It may be removed once there are good copies of the shop in its new place.
inline constexpr const char* moved_file = "hourwright.db.moved";

// No server may have the folder. The plant keeps its key, under which its entries are sealed. Refuses: what find_store
// and open_postgres refuse; in_use (a server has the folder); conflict (the shop lies on a server already; the database
// holds a plant with that key; a move into another database was begun); unsupported (tables of another version, on
// either side); corrupt (the file does not read, or the two sides came out different).
Result<copies::MoveReport> move_to_server(const std::filesystem::path& data, const std::string& address);

}  // namespace hw::storage
