#include "src/storage/edge_changes.h"

#include <fmt/ranges.h>

#include "src/storage/schema.h"

namespace hw::storage {
namespace {

// The key's columns behind the plant's, in key_1 and so on; '' where the table's key has fewer.
constexpr std::size_t key_places = 4;
constexpr const char* notes_schema = R"sql(
create table if not exists edge_change(
  position integer primary key autoincrement, row_table text not null, key_1 any not null, key_2 any not null,
  key_3 any not null, key_4 any not null, unique(row_table, key_1, key_2, key_3, key_4)) strict;
)sql";
constexpr const char* noted_columns = "row_table, key_1, key_2, key_3, key_4";

// Each behind `row`: {"new.machine", "new.task"}.
std::vector<std::string> own_key(const std::string& table, const std::string& row) {
  std::vector<std::string> columns;
  for (const std::string& column : key_columns(table)) {
    if (column != "plant") columns.push_back(row + column);
  }
  HW_ASSERT(columns.size() <= key_places, "a key has a place for each of its columns");
  return columns;
}

// "'task', new.machine, new.task, '', ''"
std::string noted(const std::string& table, const std::string& row) {
  auto values = own_key(table, row);
  values.resize(key_places, "''");
  return fmt::format("'{}', {}", table, fmt::join(values, ", "));
}

std::string trigger_name(const std::string& table, const char* change) {
  return fmt::format("edge_{}_{}", table, change);
}

// Noted anew, and not in its old place: what changes while a shipment is under way has to go with the next one.
std::string trigger(const std::string& table, const char* change, const char* row) {
  const std::string values = noted(table, row);
  return fmt::format(
      "create trigger {0} after {1} on {2} begin delete from edge_change where ({3}) = ({4}); "
      "insert into edge_change({3}) values({4}); end;\n",
      trigger_name(table, change), change, table, noted_columns, values);
}

Result<void> note_rows_of(sql::Connection& db, const std::string& table) {
  HW_TRY(db.execute("delete from edge_change where row_table = $1", table));
  HW_TRY(
      db.execute(fmt::format("insert into edge_change({}) select {} from {}", noted_columns, noted(table, ""), table)));
  return {};
}

// "t.plant = $1 and t.machine = c.key_1"
std::string same_key(const std::string& table) {
  std::string all = "t.plant = $1";
  int place = 0;
  for (const std::string& column : own_key(table, "t.")) all += fmt::format(" and {} = c.key_{}", column, ++place);
  return all;
}

}  // namespace

Result<void> note_changes(sql::Connection& db) {
  HW_TRY(db.run_script(notes_schema));
  for (const std::string& table : sent_tables()) {
    HW_TAKE(there, db.query_value<int>("select count(*) from sqlite_master where type = 'trigger' and name = $1",
                                       trigger_name(table, "delete")));
    if (there == 1) continue;
    HW_TRY(db.run_script(trigger(table, "insert", "new.") + trigger(table, "update", "new.") +
                         trigger(table, "delete", "old.")));
    HW_TRY(note_rows_of(db, table));
  }
  return {};
}

Result<void> note_all_rows(sql::Connection& db) {
  for (const std::string& table : sent_tables()) HW_TRY(note_rows_of(db, table));
  return {};
}

Result<std::int64_t> last_change(sql::Connection& db) {
  HW_TAKE(last, db.query_value<std::int64_t>("select coalesce(max(position), 0) from edge_change"));
  return last.value_or(0);
}

Result<std::int64_t> count_changes(sql::Connection& db) {
  HW_TAKE(count, db.query_value<std::int64_t>("select count(*) from edge_change"));
  return count.value_or(0);
}

Result<void> forget_changes(sql::Connection& db, std::int64_t upto) {
  HW_TRY(db.execute("delete from edge_change where position <= $1", upto));
  return {};
}

// "cross join" keeps SQLite to this order: a row for each change, and not a change for each row.
std::string changed_rows_query(const std::string& table, const std::vector<std::string>& columns) {
  std::vector<std::string> of_row;
  of_row.reserve(columns.size());
  for (const std::string& column : columns) of_row.push_back("t." + column);
  return fmt::format(
      "select {} from edge_change c cross join {} t where {} and c.row_table = $2 and c.position <= $3 "
      "order by c.position",
      fmt::join(of_row, ", "), table, same_key(table));
}

std::string gone_rows_query(const std::string& table) {
  std::string columns = "$1";
  const std::size_t count = own_key(table, "").size();
  for (std::size_t i = 1; i <= count; ++i) columns += fmt::format(", c.key_{}", i);
  return fmt::format(
      "select {} from edge_change c where c.row_table = $2 and c.position <= $3 and not exists "
      "(select 1 from {} t where {}) order by c.position",
      columns, table, same_key(table));
}

}  // namespace hw::storage
