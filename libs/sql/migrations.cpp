#include "libs/sql/migrations.h"

namespace hw::sql {
namespace {

Result<void> apply(Connection& connection, const Migration& migration) {
  if (auto run = connection.run_script(migration.sql); !run) return run;
  return connection.set_schema_version(migration.version);
}

}  // namespace

Result<int> apply_migrations(Connection& connection, std::span<const Migration> migrations) {
  for (std::size_t i = 0; i < migrations.size(); ++i) {
    HW_ASSERT(migrations[i].version == static_cast<int>(i) + 1, "migrations are numbered 1, 2, 3, ...");
  }
  const auto present = connection.schema_version();
  if (!present) return refuse(present.error());
  const int last = static_cast<int>(migrations.size());
  if (*present > last) {
    return refuse(ErrorCode::unsupported,
                  "the database was written by a newer version of this program (schema {}; this one knows up to {}): "
                  "use that version, or restore a backup from before",
                  *present, last);
  }
  if (*present == last) return 0;
  HW_TAKE(transaction, Transaction::begin(connection));
  for (const Migration& migration : migrations.subspan(static_cast<std::size_t>(*present))) {
    if (auto applied = apply(connection, migration); !applied) {
      return refuse(applied.error().at(fmt::format("schema step {}", migration.version)));
    }
  }
  HW_TRY(transaction.commit());
  return last - *present;
}

}  // namespace hw::sql
