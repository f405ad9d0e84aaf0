// What is hashed, one piece behind the other:
//
//   record = *table
//   table  = "table " name "(" column *(", " column) ")\n" *row     tables as table_names() has them, rows by their key
//   row    =                                                     as row_text.h has it

#include "src/storage/record_digest.h"

#include <fmt/ranges.h>

#include "libs/values/sha256.h"
#include "src/storage/row_text.h"
#include "src/storage/schema.h"

namespace hw::storage {
namespace {

Result<std::int64_t> add_table(Sha256Stream& digest, sql::Connection& db, const std::string& table) {
  HW_TAKE(columns, db.columns_of(table));
  const std::string list = fmt::format("{}", fmt::join(columns, ", "));
  digest.add(fmt::format("table {}({})\n", table, list));
  HW_TAKE(rows, db.stream(fmt::format("select {} from {} where plant = $1 order by {}", list, table,
                                      fmt::join(key_columns(table), ", ")),
                          db.tenant()));
  fmt::memory_buffer text;
  std::int64_t count = 0;
  for (; rows.next(); ++count) {
    text.clear();
    for (std::size_t i = 0; i < columns.size(); ++i) append_cell(text, rows.value(static_cast<int>(i)));
    text.push_back('\n');
    digest.add({text.data(), text.size()});
  }
  return count;
}

}  // namespace

Result<RecordDigest> record_digest(sql::Connection& db, std::span<const std::string> tables) {
  Sha256Stream digest;
  RecordDigest record;
  for (const std::string& table : tables) {
    HW_TAKE(rows, add_table(digest, db, table));
    record.tables.push_back({table, rows});
  }
  record.sha256 = print_hex(digest.end());
  return record;
}

}  // namespace hw::storage
