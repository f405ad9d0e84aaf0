#include "src/storage/copied_rows.h"

#include <fmt/ranges.h>

#include "src/storage/schema.h"

namespace hw::storage {
namespace {

Result<void> copy_table(sql::Connection& from, sql::Connection& to, const std::string& table) {
  HW_TAKE(columns, to.columns_of(table));
  HW_TAKE(rows, from.stream(fmt::format("select {} from {} where plant = $1", fmt::join(columns, ", "), table),
                            from.tenant()));
  HW_TAKE(copied, to.begin_rows({table, columns}));
  std::vector<sql::Parameter> row;
  while (rows.next()) {
    row.clear();
    for (std::size_t i = 0; i < columns.size(); ++i) row.emplace_back(rows.value(static_cast<int>(i)));
    HW_TRY(copied->add(row));
  }
  HW_TRY(copied->end());
  return {};
}

}  // namespace

Result<void> copy_rows(sql::Connection& from, sql::Connection& to) {
  for (const std::string& table : table_names()) HW_TRY(copy_table(from, to, table));
  return {};
}

}  // namespace hw::storage
