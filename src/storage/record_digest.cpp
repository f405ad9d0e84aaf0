// What is hashed, one piece behind the other:
//
//   record = *table
//   table  = "table " name "(" column *(", " column) ")\n" *row     tables as table_names() has them, rows by their key
//   row    = 1*cell "\n"                                            a cell for each column
//   cell   = "-" | "i" whole | "d" number | "t" length ":" text | "b" length ":" bytes
//
// Whole numbers and lengths are decimal; a number is the shortest decimal that reads back as the same double; zero has
// no sign, since SQLite keeps none.

#include "src/storage/record_digest.h"

#include <fmt/ranges.h>

#include "libs/values/sha256.h"
#include "src/storage/schema.h"

namespace hw::storage {
namespace {

void add_cell(Sha256Stream& digest, fmt::memory_buffer& words, const sql::Parameter::Value& value) {
  words.clear();
  const auto out = fmt::appender(words);
  std::string_view bytes;
  if (const auto* whole = std::get_if<std::int64_t>(&value)) {
    fmt::format_to(out, "i{}", *whole);
  } else if (const auto* number = std::get_if<double>(&value)) {
    fmt::format_to(out, "d{}", *number == 0 ? 0.0 : *number);
  } else if (const auto* text = std::get_if<std::string_view>(&value)) {
    bytes = *text;
    fmt::format_to(out, "t{}:", bytes.size());
  } else if (const auto* blob = std::get_if<std::span<const std::byte>>(&value)) {
    bytes = {reinterpret_cast<const char*>(blob->data()), blob->size()};
    fmt::format_to(out, "b{}:", bytes.size());
  } else {
    words.push_back('-');
  }
  digest.add({words.data(), words.size()});
  if (!bytes.empty()) digest.add(bytes);
}

Result<std::int64_t> add_table(Sha256Stream& digest, sql::Connection& db, const std::string& table) {
  HW_TAKE(columns, db.columns_of(table));
  const std::string list = fmt::format("{}", fmt::join(columns, ", "));
  digest.add(fmt::format("table {}({})\n", table, list));
  HW_TAKE(rows, db.stream(fmt::format("select {} from {} where plant = $1 order by {}", list, table,
                                      fmt::join(key_columns(table), ", ")),
                          db.tenant()));
  fmt::memory_buffer words;
  std::int64_t count = 0;
  for (; rows.next(); ++count) {
    for (std::size_t i = 0; i < columns.size(); ++i) add_cell(digest, words, rows.value(static_cast<int>(i)));
    digest.add("\n");
  }
  return count;
}

}  // namespace

Result<RecordDigest> record_digest(sql::Connection& db) {
  Sha256Stream digest;
  RecordDigest record;
  for (const std::string& table : table_names()) {
    HW_TAKE(rows, add_table(digest, db, table));
    record.tables.push_back({table, rows});
  }
  record.sha256 = print_hex(digest.end());
  return record;
}

}  // namespace hw::storage
