#pragma once
// Whether the photos that entries name are here, and are what the entries say.

#include "libs/sql/connection.h"
#include "src/record/verify.h"

namespace hw::storage {

// Adds to the verdict each photo that was altered or exchanged, and each that is not here. Reads whatever types and
// nulls somebody put into the columns; entries whose body does not read are passed over (they are altered).
Result<void> check_photos(sql::Connection& db, record::Verdict& verdict);

}  // namespace hw::storage
