// Rows of a query as the server sends them: libpq's single-row mode holds one at a time.

#include <libpq-fe.h>

#include "libs/sql/postgres_connection.h"

namespace hw::sql {

class PostgresStream : public Statement {
 public:
  PostgresStream(PostgresConnection& connection, PostgresConnection::Prepared prepared)
      : connection_(connection), prepared_(std::move(prepared)) {
    ++connection_.open_statements_;
  }
  ~PostgresStream() override {
    if (is_under_way_) end();
    --connection_.open_statements_;
  }
  PostgresStream(const PostgresStream&) = delete;
  PostgresStream& operator=(const PostgresStream&) = delete;

  Result<bool> step() override {
    if (!is_begun_) HW_TRY(begin());
    if (!is_under_way_) return false;
    auto answer = connection_.judge(ServerAnswer(PQgetResult(server())), prepared_.sql);
    if (!answer) {
      end();
      HW_TRY(connection_.undo_to_savepoint());
      return refuse(std::move(answer.error()));
    }
    answer_ = std::move(*answer);
    const bool is_row = PQresultStatus(answer_.get()) == PGRES_SINGLE_TUPLE;
    if (!is_row) end();
    return is_row;
  }
  std::int64_t changed_rows() const override { return 0; }
  bool is_change() const override { return PQresultStatus(answer_.get()) == PGRES_COMMAND_OK; }
  int column_count() const override { return PQnfields(answer_.get()); }
  Parameter::Value column(int index) const override { return value_in(answer_.get(), 0, index); }

 private:
  pg_conn* server() const { return connection_.server_.get(); }
  Result<void> begin() {
    connection_.check_usable();
    HW_TRY(connection_.set_savepoint());
    is_begun_ = true;
    const SentArguments sent(prepared_.arguments);
    const int is_sent = PQsendQueryPrepared(server(), prepared_.name.c_str(), sent.count(), sent.values.data(),
                                            sent.lengths.data(), sent.forms.data(), binary_form);
    if (is_sent != 1) HW_TRY(connection_.judge(nullptr, prepared_.sql));  // the server is not there
    PQsetSingleRowMode(server());
    connection_.is_occupied_ = is_under_way_ = true;
    return {};
  }
  // Takes what is still to come, so that the connection is free again.
  void end() {
    while (const ServerAnswer rest{PQgetResult(server())}) {
    }
    connection_.is_occupied_ = is_under_way_ = false;
  }

  PostgresConnection& connection_;
  PostgresConnection::Prepared prepared_;
  ServerAnswer answer_;
  bool is_begun_ = false;
  bool is_under_way_ = false;
};

Result<std::unique_ptr<Statement>> PostgresConnection::start_stream(std::string_view sql,
                                                                    std::span<const Parameter> arguments) {
  HW_TAKE(prepared, prepare(sql, arguments));
  return std::make_unique<PostgresStream>(*this, std::move(prepared));
}

}  // namespace hw::sql
