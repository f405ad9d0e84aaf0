#pragma once
// The connection that open_sqlite gives; only this folder's .cpp files include it.

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "libs/sql/connection.h"
#include "libs/sql/sqlite.h"

struct sqlite3;
struct sqlite3_stmt;

namespace hw::sql {

struct FinalizeStatement {
  void operator()(sqlite3_stmt* statement) const;
};

struct CloseDatabase {
  void operator()(sqlite3* database) const;
};

// A compiled statement and where its $1, $2, ... stand: SQLite numbers them by their first appearance.
struct Prepared {
  std::unique_ptr<sqlite3_stmt, FinalizeStatement> handle;
  std::vector<int> parameter_positions;
};

struct HashText {
  using is_transparent = void;
  std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>()(text); }
};

// Compiled statements that nobody uses at the moment, by their text.
using PreparedByText = std::unordered_map<std::string, Prepared, HashText, std::equal_to<>>;

class SqliteConnection : public Connection {
 public:
  SqliteConnection(std::unique_ptr<sqlite3, CloseDatabase> database, std::string file, Access access)
      : database_(std::move(database)), file_(std::move(file)), access_(access) {}
  ~SqliteConnection() override;

  Result<std::unique_ptr<BulkRows>> begin_rows(const BulkTarget& target) override;
  Result<void> run_script(const std::string& sql) override;
  Result<std::vector<std::string>> columns_of(std::string_view table) override;
  Result<int> schema_version() override;
  Result<void> set_schema_version(int version) override;
  std::optional<Error> failure() const override { return broken_; }

  // From now on what stands in the log is written back to the file whenever it has grown long.
  void write_back_by_itself();

  // What a status of SQLite means: nothing for SQLITE_OK, ROW and DONE; else an Error to hand on, or StorageFailed, or
  // an assertion, as connection.h has it. `doing` is the statement.
  std::optional<Error> judge(int status, std::string_view doing);

 protected:
  Result<std::unique_ptr<Statement>> start(std::string_view sql, std::span<const Parameter> arguments) override;
  Result<void> begin() override;
  Result<void> commit() override;
  void roll_back() noexcept override;

 private:
  friend class SqliteStatement;
  friend class SqliteBulkRows;
  void undo_rows() noexcept;
  Result<PreparedByText::node_type> take_prepared(std::string_view sql);
  Result<Prepared> prepare(std::string_view sql);
  void give_back(PreparedByText::node_type statement);
  Result<void> bind(const Prepared& statement, std::span<const Parameter> arguments);
  static int write_back(void* connection, sqlite3* database, const char* schema, int log_pages);
  void check_usable();
  Error storage_error(int status);  // which may end all further work
  [[noreturn]] void fail_storage(int status);

  std::unique_ptr<sqlite3, CloseDatabase> database_;
  std::string file_;
  Access access_;
  PreparedByText idle_;  // after database_, so that they are finalized first
  int open_statements_ = 0;
  bool is_in_transaction_ = false;
  std::optional<Error> broken_;  // set: every further use throws it
};

}  // namespace hw::sql
