#pragma once
// Whether the tables that follow from the entries are as they follow from them.

#include "libs/sql/connection.h"
#include "src/record/verify.h"

namespace hw::storage {

// Makes all of them again, in memory, from the entries of `db`, and names each that differs. The entries have to be as
// they were written.
Result<std::vector<record::Break>> compare_derived(sql::Connection& db);

}  // namespace hw::storage
