// Rows by binary COPY (PostgreSQL, "COPY", Binary Format: a signature of 11 bytes, flags, the length of an extension;
// for each row the number of its values, for each of them its length, -1 for null, and its bytes; -1 at the end).
//
// They land in a table of the session's own and go from there into theirs by one insert: COPY replaces no row that is
// there, and does not go into a table whose rows are kept apart by row-level security.

#include <fmt/ranges.h>
#include <libpq-fe.h>

#include "libs/sql/postgres_connection.h"

namespace hw::sql {
namespace {

constexpr std::size_t piece_bytes = std::size_t{1} << 16;  // sent at once
// That lie in two places at most; they stay in memory there as long as PostgreSQL's temp_buffers has its 8 MB.
constexpr std::size_t landed_bytes = std::size_t{4} << 20;
constexpr std::string_view copy_head{"PGCOPY\n\377\r\n\0\0\0\0\0\0\0\0\0", 19};
constexpr std::string_view copy_tail{"\377\377", 2};

std::string listed_columns(const BulkTarget& target) { return fmt::format("{}", fmt::join(target.columns, ", ")); }

std::string insert_of(const BulkTarget& target, const std::string& landing) {
  return fmt::format("insert into {0}({1}) select {1} from pg_temp.{2}{3}", target.table, listed_columns(target),
                     landing, replacing_clause(target));
}

}  // namespace

class PostgresBulkRows : public BulkRows {
 public:
  PostgresBulkRows(PostgresConnection& connection, PostgresConnection::Landing landing, const BulkTarget& target)
      : connection_(connection),
        landing_(std::move(landing)),
        copy_(fmt::format("copy pg_temp.{}({}) from stdin (format binary)", landing_.name, listed_columns(target))),
        insert_(insert_of(target, landing_.name)) {
    ++connection_.open_statements_;
  }
  ~PostgresBulkRows() override {
    --connection_.open_statements_;
    if (is_over_ || connection_.failure()) return;
    if (connection_.is_occupied_) (void)end_copy("given up");
    const ServerAnswer ignored(PQexec(server(), "rollback to savepoint statement"));
  }
  PostgresBulkRows(const PostgresBulkRows&) = delete;
  PostgresBulkRows& operator=(const PostgresBulkRows&) = delete;

  Result<void> begin() {
    HW_TAKE(answer, connection_.judge(ServerAnswer(PQexec(server(), copy_.c_str())), copy_));
    connection_.is_occupied_ = PQresultStatus(answer.get()) == PGRES_COPY_IN;
    piece_ = copy_head;
    return {};
  }

  Result<void> add(std::span<const Parameter> row) override {
    HW_ASSERT(!is_over_ && row.size() == landing_.types.size(), "a value for each column, before the end");
    is_refused_ = true;
    for (std::size_t i = 0; i < row.size(); ++i) HW_TRY(check_column(row[i].value(), i));
    is_refused_ = false;
    append_number(piece_, static_cast<std::uint16_t>(row.size()));
    for (const Parameter& value : row) append_copied(piece_, value.value());
    ++rows_;
    if (piece_.size() < piece_bytes) return {};
    HW_TRY(send_piece());
    if (landed_bytes_ < landed_bytes) return {};
    HW_TRY(move_landed());
    HW_TRY(connection_.run_script("truncate pg_temp." + landing_.name));
    return begin();
  }

  Result<std::int64_t> end() override {
    HW_ASSERT(!is_refused_, "after a refusal there is nothing to end");
    HW_TRY(move_landed());
    is_over_ = true;
    return rows_;
  }

 private:
  Result<void> check_column(const Parameter::Value& value, std::size_t index) const {
    HW_TRY(check_bulk_value(value, index + 1));
    if (std::holds_alternative<std::monostate>(value) || type_of(value) == landing_.types[index]) return {};
    return refuse(ErrorCode::bad_input, "column {}: not of its column's type", index + 1);
  }
  pg_conn* server() const { return connection_.server_.get(); }
  Result<void> send_piece() {
    landed_bytes_ += piece_.size();
    const int is_sent = PQputCopyData(server(), piece_.data(), static_cast<int>(piece_.size()));
    piece_.clear();
    if (is_sent == 1) return {};
    HW_TRY(connection_.judge(nullptr, copy_));  // the server is not there
    return {};
  }
  Result<void> end_copy(const char* why_not) {
    PQputCopyEnd(server(), why_not);
    ServerAnswer answer(PQgetResult(server()));
    while (const ServerAnswer rest{PQgetResult(server())}) {
    }
    connection_.is_occupied_ = false;
    if (why_not == nullptr) HW_TRY(connection_.judge(std::move(answer), copy_));
    return {};
  }
  Result<void> move_landed() {
    piece_ += copy_tail;
    HW_TRY(send_piece());
    HW_TRY(end_copy(nullptr));
    landed_bytes_ = 0;
    return connection_.run_script(insert_);
  }

  PostgresConnection& connection_;
  PostgresConnection::Landing landing_;
  std::string copy_, insert_;
  std::string piece_;
  std::size_t landed_bytes_ = 0;
  std::int64_t rows_ = 0;
  bool is_refused_ = false;
  bool is_over_ = false;
};

// Its types are those of the target's columns, which no session changes while it goes on.
Result<PostgresConnection::Landing*> PostgresConnection::landing_for(const BulkTarget& target) {
  const std::string columns = listed_columns(target);
  const std::string none = fmt::format("select {} from {} where false", columns, target.table);
  auto& landing = landings_[none];
  if (landing.name.empty()) {
    HW_TAKE(prepared, prepare(none, {}));
    HW_TAKE(answer, run_prepared(prepared));
    for (int i = 0; i < PQnfields(answer.get()); ++i) {
      landing.types.push_back(static_cast<PostgresType>(PQftype(answer.get(), i)));
    }
    landing.name = fmt::format("landing_{}", landings_.size());
  }
  return &landing;
}

Result<std::unique_ptr<BulkRows>> PostgresConnection::begin_rows(const BulkTarget& target) {
  check_usable();
  HW_ASSERT(is_in_transaction_, "many rows are stored within a transaction");
  HW_TAKE(landing, landing_for(target));
  HW_TRY(set_savepoint());
  auto rows = std::make_unique<PostgresBulkRows>(*this, *landing, target);
  HW_TRY(
      run_script(fmt::format("create temporary table if not exists {} on commit delete rows as "
                             "select {} from {} with no data",
                             landing->name, listed_columns(target), target.table)));
  // What has landed is gone with its transaction; within one, the next rows must not find it there.
  if (std::exchange(landing->filled_in, transaction_count_) == transaction_count_) {
    HW_TRY(run_script("truncate pg_temp." + landing->name));
  }
  HW_TRY(rows->begin());
  return rows;
}

}  // namespace hw::sql
