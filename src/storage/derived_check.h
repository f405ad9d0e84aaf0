#pragma once
// Whether the tables that follow from the entries are as they follow from them.

#include <array>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "libs/sql/connection.h"
#include "src/record/verify.h"

namespace hw::storage {

struct DerivedTable {
  std::string_view name;
  std::vector<std::string_view> columns;  // all, those of the key first
  std::size_t key_columns = 1;
};
const std::array<DerivedTable, 9>& derived_tables();

// All of them made again from the entries of `db`, in a database of their own in memory.
Result<std::unique_ptr<sql::Connection>> derive_all(sql::Connection& db);

// Each that is in one otherwise than in the other, in a sentence.
Result<std::vector<std::string>> derived_differences(sql::Connection& kept, sql::Connection& made);

// SHA-256 of all rows of all of them, in order.
Result<std::string> derived_digest(sql::Connection& db);

// Makes all of them again, in memory, from the entries of `db`, and names each that differs. The entries have to be as
// they were written.
Result<std::vector<record::Break>> compare_derived(sql::Connection& db);

}  // namespace hw::storage
