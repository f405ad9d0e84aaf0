#pragma once
// The connection that open_postgres gives; only this folder's .cpp files include it.

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "libs/sql/connection.h"
#include "libs/sql/postgres.h"
#include "libs/sql/postgres_values.h"

struct pg_conn;
struct pg_result;

namespace hw::sql {

struct CloseServer {
  void operator()(pg_conn* server) const;
};
struct ClearAnswer {
  void operator()(pg_result* answer) const;
};
using Server = std::unique_ptr<pg_conn, CloseServer>;
using ServerAnswer = std::unique_ptr<pg_result, ClearAnswer>;

class PostgresConnection : public Connection {
 public:
  // `name` is what messages call it.
  PostgresConnection(Server server, std::string name, Access access, const PostgresOptions& options);
  ~PostgresConnection() override;

  Result<std::unique_ptr<BulkRows>> begin_rows(const BulkTarget& target) override;
  Result<void> run_script(const std::string& sql) override;
  Result<std::vector<std::string>> columns_of(std::string_view table) override;
  Result<int> schema_version() override;
  Result<void> set_schema_version(int version) override;
  Result<void> act_for(std::string_view tenant) override;
  std::optional<Error> failure() const override { return broken_; }
  bool is_there() override;

 protected:
  Result<std::unique_ptr<Statement>> start(std::string_view sql, std::span<const Parameter> arguments) override;
  Result<std::unique_ptr<Statement>> start_stream(std::string_view sql, std::span<const Parameter> arguments) override;
  Result<void> begin() override;
  Result<void> commit() override;
  void roll_back() noexcept override;

 private:
  friend class PostgresStatement;
  friend class PostgresStream;
  friend class PostgresBulkRows;
  struct Prepared {
    std::string sql, name;
    std::vector<PostgresArgument> arguments;
  };
  // A table of the session's own that takes rows on their way into another.
  struct Landing {
    std::string name;
    std::vector<PostgresType> types;
    std::uint64_t filled_in = 0;  // the last transaction that put rows into it
  };
  Result<Prepared> prepare(std::string_view sql, std::span<const Parameter> arguments);
  Result<Landing*> landing_for(const BulkTarget& target);
  Result<std::string> prepared_for(const std::string& sql, std::span<const PostgresArgument> arguments);
  Result<ServerAnswer> run_prepared(const Prepared& prepared);
  // What is refused between the two in a writing transaction is undone alone.
  bool is_undone_alone() const { return is_in_transaction_ && access_ == Access::write; }
  Result<void> set_savepoint();
  Result<void> undo_to_savepoint();
  // What an answer means: the answer itself where it is good; else an Error to hand on, or StorageFailed, or an
  // assertion, as connection.h has it. `doing` is the statement.
  Result<ServerAnswer> judge(ServerAnswer answer, std::string_view doing);
  Result<ServerAnswer> refused(const ServerAnswer& answer, std::string_view doing);
  void check_usable() const;

  Server server_;
  std::string name_;
  Access access_;
  PostgresOptions options_;
  std::unordered_map<std::string, std::string> prepared_;  // by text and types: the server's name for it
  std::uint64_t prepared_count_ = 0;
  std::unordered_map<std::string, Landing> landings_;  // by what goes through them
  int open_statements_ = 0;
  std::uint64_t transaction_count_ = 0;
  bool is_in_transaction_ = false;
  bool has_savepoint_ = false;
  bool is_occupied_ = false;     // by rows that come or go one by one
  std::optional<Error> broken_;  // set: every further use throws it
};

// The value in a row of an answer.
Parameter::Value value_in(const pg_result* answer, int row, int column);
// The number of rows that a statement changed.
std::int64_t changed_in(const ServerAnswer& answer);

// Arguments as libpq takes them. It looks into them.
struct SentArguments {
  explicit SentArguments(std::span<const PostgresArgument> arguments);
  int count() const { return static_cast<int>(values.size()); }
  std::vector<const char*> values;
  std::vector<int> lengths, forms;
};
inline constexpr int binary_form = 1;

}  // namespace hw::sql
