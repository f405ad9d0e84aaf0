#pragma once
// The tables of who may come in: account, sign_in_link, session and token have one row each, which is put in the place
// of the one before; access_note is only added to.

#include <vector>

#include "libs/sql/connection.h"
#include "src/service/access_rows.h"

namespace hw::storage {

Result<void> put_access(sql::Connection& db, const service::AccessRows& rows);

// Without notes, and without sessions that ended. Refuses (corrupt) what does not read.
Result<service::AccessRows> read_access(sql::Connection& db);
// The latest first.
Result<std::vector<service::AccessNote>> read_access_notes(sql::Connection& db, int count_max);

}  // namespace hw::storage
