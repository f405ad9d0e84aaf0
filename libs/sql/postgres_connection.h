#pragma once
// The connection that open_postgres gives; only this folder's .cpp files include it.

#include <string>
#include <string_view>
#include <unordered_map>

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

  Result<void> run_script(const std::string& sql) override;
  Result<std::vector<std::string>> columns_of(std::string_view table) override;
  Result<int> schema_version() override;
  Result<void> set_schema_version(int version) override;
  Result<void> act_for(std::string_view tenant) override;
  std::optional<Error> failure() const override { return broken_; }
  bool is_there() override;

 protected:
  Result<std::unique_ptr<Statement>> start(std::string_view sql, std::span<const Parameter> arguments) override;
  Result<void> begin() override;
  Result<void> commit() override;
  void roll_back() noexcept override;

 private:
  friend class PostgresStatement;
  Result<std::string> prepared_for(const std::string& sql, std::span<const PostgresArgument> arguments);
  Result<ServerAnswer> run_prepared(const std::string& name, std::span<const PostgresArgument> arguments,
                                    std::string_view sql);
  Result<ServerAnswer> send_prepared(const std::string& name, std::span<const PostgresArgument> arguments,
                                     std::string_view sql);
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
  int open_statements_ = 0;
  bool is_in_transaction_ = false;
  bool has_savepoint_ = false;
  std::optional<Error> broken_;  // set: every further use throws it
};

}  // namespace hw::sql
