#include "libs/sql/postgres_tenants.h"

#include <fmt/format.h>

namespace hw::sql {

std::string keep_tenants_apart(std::span<const std::string> tables, const std::string& column,
                               const std::string& listed) {
  std::string sql;
  for (const std::string& table : tables) {
    sql += fmt::format(
        "alter table {0} enable row level security;\n"
        "alter table {0} force row level security;\n"
        "create policy own_rows on {0} using ({1} = current_setting('{2}', true));\n",
        table, column, tenant_setting);
    if (table == listed) sql += fmt::format("create policy all_listed on {} for select using (true);\n", table);
  }
  return sql;
}

}  // namespace hw::sql
