#include "src/storage/derived_check.h"

#include <algorithm>
#include <array>

#include <fmt/ranges.h>

#include "libs/sql/migrations.h"
#include "libs/sql/sqlite.h"
#include "libs/values/sha256.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/derived_rows.h"
#include "src/storage/entry_reading.h"
#include "src/storage/logbook_rows.h"
#include "src/storage/schema.h"

namespace hw::storage {

const std::array<DerivedTable, 9>& derived_tables() {
  static const std::array<DerivedTable, 9> tables{{
      {"task_done", {"plant", "machine", "task", "happened_ms", "entry"}, 5},
      {"walk", {"plant", "walk", "machine", "rhythm", "by_name", "begun_ms", "checks"}, 2},
      {"given_answer",
       {"plant", "entry", "place", "machine", "rhythm", "walk", "check_key", "by_name", "happened_ms", "value", "body"},
       3},
      {"correction", {"plant", "corrects", "entry"}, 3},
      {"stray", {"plant", "entry"}, 2},
      {"finding_entry", {"plant", "finding", "ordinal"}, 3},
      {"finding", {"plant", "finding", "machine", "settled_ms", "body"}, 2},
      {"stop_entry", {"plant", "stop", "ordinal"}, 3},
      {"stop", {"plant", "stop", "machine", "state", "over_ms", "body"}, 2},
  }};
  return tables;
}

namespace {

std::string rows_query(const DerivedTable& table) {
  return fmt::format(
      "select {} from {} where plant = $1 order by {}", fmt::join(table.columns, ", "), table.name,
      fmt::join(table.columns.begin(), table.columns.begin() + static_cast<std::ptrdiff_t>(table.key_columns), ", "));
}

using Cells = std::vector<std::optional<std::string>>;

// In words that are the same of both databases; somebody may have put anything into the columns.
std::optional<std::string> cell_of(const sql::Parameter::Value& value) {
  if (const auto* number = std::get_if<std::int64_t>(&value)) return fmt::format("{}", *number);
  if (const auto* real = std::get_if<double>(&value)) return fmt::format("{}", *real);
  if (const auto* text = std::get_if<std::string_view>(&value)) return std::string{*text};
  if (std::holds_alternative<std::monostate>(value)) return std::nullopt;
  return "bytes";  // no derived column holds any
}

std::optional<Cells> next_row(sql::Rows& rows, std::size_t columns) {
  if (!rows.next()) return std::nullopt;
  Cells cells;
  for (std::size_t i = 0; i < columns; ++i) cells.push_back(cell_of(rows.value(static_cast<int>(i))));
  return cells;
}

// "m01, seal": the key without the plant.
std::string key_of(const Cells& row, const DerivedTable& table) {
  std::vector<std::string> key;
  for (std::size_t i = 1; i < table.key_columns; ++i) key.push_back(row[i].value_or("nothing"));
  return fmt::format("{}", fmt::join(key, ", "));
}

Result<bool> has_its_columns(sql::Connection& db, const DerivedTable& table) {
  HW_TAKE(there, db.columns_of(table.name));
  return std::all_of(table.columns.begin(), table.columns.end(),
                     [&](auto column) { return std::find(there.begin(), there.end(), column) != there.end(); });
}

// The first row in which they differ.
Result<std::optional<std::string>> difference(sql::Connection& kept, sql::Connection& made, const DerivedTable& table) {
  HW_TAKE(kept_rows, kept.stream(rows_query(table), kept.tenant()));
  HW_TAKE(made_rows, made.stream(rows_query(table), made.tenant()));
  for (;;) {
    const auto there = next_row(kept_rows, table.columns.size());
    const auto right = next_row(made_rows, table.columns.size());
    if (there == right && !there) return std::optional<std::string>{};
    if (there == right) continue;
    const bool is_put_in = !right || (there && *there < *right);
    return std::optional{key_of(is_put_in ? *there : *right, table)};
  }
}

Result<std::optional<std::string>> judged(sql::Connection& kept, sql::Connection& made, const DerivedTable& table) {
  HW_TAKE(is_as_made, has_its_columns(kept, table));
  if (!is_as_made) return std::optional{fmt::format("the table {} is not as this program makes it", table.name)};
  HW_TAKE(differs, difference(kept, made, table));
  if (!differs) return std::optional<std::string>{};
  return std::optional{
      fmt::format("the table {} does not agree with the entries: the first difference is at {}", table.name, *differs)};
}

// An empty database with our tables, gone with its connection.
Result<std::unique_ptr<sql::Connection>> empty_tables(const std::string& plant) {
  HW_TAKE(db, sql::open_sqlite_in_memory());
  HW_TRY(db->act_for(plant));
  HW_TRY(sql::apply_migrations(*db, migrations()));
  HW_TRY(db->execute("insert into plant(plant, name, zone, aliases, stopping) values($1, '', '', '{}', '{}')", plant));
  return std::move(db);
}

// Only entries about findings and stops are read again while rows are derived, so only they are copied.
Result<void> derive_again(sql::Connection& made, const service::Entry& entry) {
  if (entry.body.finding || entry.body.stop) HW_TRY(copy_entry(made, entry));
  return derive_rows(made, entry);
}

}  // namespace

Result<std::unique_ptr<sql::Connection>> derive_all(sql::Connection& db) {
  HW_TAKE(made, empty_tables(db.tenant()));
  HW_TAKE(writing, sql::Transaction::begin(*made));
  HW_TAKE(rows, db.stream(fmt::format("select {} from entry e where e.plant = $1 order by e.ordinal", entry_columns()),
                          db.tenant()));
  while (rows.next()) {
    HW_TAKE(entry, entry_alone(rows));
    HW_TRY(derive_again(*made, entry));
  }
  HW_TRY(writing.commit());
  return std::move(made);
}

Result<std::vector<std::string>> derived_differences(sql::Connection& kept, sql::Connection& made) {
  std::vector<std::string> differences;
  for (const DerivedTable& table : derived_tables()) {
    HW_TAKE(says, judged(kept, made, table));
    if (says) differences.push_back(*says);
  }
  return differences;
}

Result<std::string> derived_digest(sql::Connection& db) {
  Sha256Stream digest;
  for (const DerivedTable& table : derived_tables()) {
    digest.add(table.name);
    HW_TAKE(rows, db.stream(rows_query(table), db.tenant()));
    while (const auto row = next_row(rows, table.columns.size())) {
      for (const auto& cell : *row) digest.add(cell ? fmt::format("{}:{}", cell->size(), *cell) : "-");
    }
  }
  return print_hex(digest.end());
}

Result<std::vector<record::Break>> compare_derived(sql::Connection& db) {
  HW_TAKE(made, derive_all(db));
  HW_TAKE(differences, derived_differences(db, *made));
  std::vector<record::Break> breaks;
  for (std::string& says : differences) breaks.push_back({record::BreakKind::derived, 0, std::move(says)});
  return breaks;
}

}  // namespace hw::storage
