// Rows by one prepared insert, behind a savepoint that undoes all of them.

#include <fmt/ranges.h>
#include <sqlite3.h>

#include "libs/sql/sqlite_connection.h"

namespace hw::sql {
namespace {

std::string insert_of(const BulkTarget& target) {
  std::vector<std::string> places;
  for (std::size_t i = 1; i <= target.columns.size(); ++i) places.push_back(fmt::format("${}", i));
  return fmt::format("insert into {}({}) values({}){}", target.table, fmt::join(target.columns, ", "),
                     fmt::join(places, ", "), replacing_clause(target));
}

}  // namespace

class SqliteBulkRows : public BulkRows {
 public:
  SqliteBulkRows(SqliteConnection& connection, const BulkTarget& target)
      : connection_(connection), insert_(insert_of(target)) {
    ++connection_.open_statements_;
  }
  ~SqliteBulkRows() override {
    --connection_.open_statements_;
    if (!is_over_) connection_.undo_rows();
  }
  SqliteBulkRows(const SqliteBulkRows&) = delete;
  SqliteBulkRows& operator=(const SqliteBulkRows&) = delete;

  Result<void> add(std::span<const Parameter> row) override {
    is_refused_ = true;
    for (std::size_t i = 0; i < row.size(); ++i) HW_TRY(check_bulk_value(row[i].value(), i + 1));
    HW_TRY(connection_.execute_with(insert_, row));
    is_refused_ = false;
    ++rows_;
    return {};
  }
  Result<std::int64_t> end() override {
    HW_ASSERT(!is_refused_, "after a refusal there is nothing to end");
    HW_TRY(connection_.run_script("release many_rows"));
    is_over_ = true;
    return rows_;
  }

 private:
  SqliteConnection& connection_;
  std::string insert_;
  std::int64_t rows_ = 0;
  bool is_refused_ = false;
  bool is_over_ = false;
};

Result<std::unique_ptr<BulkRows>> SqliteConnection::begin_rows(const BulkTarget& target) {
  HW_ASSERT(is_in_transaction_, "many rows are stored within a transaction");
  HW_TRY(run_script("savepoint many_rows"));
  return std::make_unique<SqliteBulkRows>(*this, target);
}

void SqliteConnection::undo_rows() noexcept {
  if (broken_ || sqlite3_get_autocommit(database_.get()) != 0) return;  // the whole transaction is gone, or will be
  const int status =
      sqlite3_exec(database_.get(), "rollback to many_rows; release many_rows", nullptr, nullptr, nullptr);
  if (status != SQLITE_OK) broken_ = Error{ErrorCode::disk_full, fmt::format("{}: cannot be rolled back", file_)};
}

}  // namespace hw::sql
