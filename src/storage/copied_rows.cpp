#include "src/storage/copied_rows.h"

#include <fmt/ranges.h>

#include "src/storage/schema.h"

namespace hw::storage {
namespace {

// "insert into cell(plant, cell) values($1, $2)"
std::string insert_of(const std::string& table, const std::vector<std::string>& columns) {
  std::vector<std::string> places;
  for (std::size_t i = 1; i <= columns.size(); ++i) places.push_back(fmt::format("${}", i));
  return fmt::format("insert into {}({}) values({})", table, fmt::join(columns, ", "), fmt::join(places, ", "));
}

Result<void> copy_table(sql::Connection& from, sql::Connection& to, const std::string& table) {
  HW_TAKE(columns, to.columns_of(table));
  HW_TAKE(rows, from.query(fmt::format("select {} from {} where plant = $1", fmt::join(columns, ", "), table),
                           from.tenant()));
  const std::string insert = insert_of(table, columns);
  std::vector<sql::Parameter> row;
  while (rows.next()) {
    row.clear();
    for (std::size_t i = 0; i < columns.size(); ++i) row.emplace_back(rows.value(static_cast<int>(i)));
    HW_TRY(to.execute_with(insert, row));
  }
  return {};
}

}  // namespace

Result<void> copy_rows(sql::Connection& from, sql::Connection& to) {
  HW_TAKE(reading, sql::Transaction::begin(from));
  HW_TAKE(writing, sql::Transaction::begin(to));
  for (const std::string& table : table_names()) HW_TRY(copy_table(from, to, table));
  HW_TRY(writing.commit());
  return reading.commit();
}

}  // namespace hw::storage
