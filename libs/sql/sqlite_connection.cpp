#include "libs/sql/sqlite_connection.h"

#include <charconv>
#include <cmath>
#include <new>

#include <sqlite3.h>

namespace hw::sql {

constexpr std::size_t idle_statements_max = 256;
constexpr int log_pages_max = 1000;  // 4 MiB, as SQLite itself has it

void FinalizeStatement::operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
void CloseDatabase::operator()(sqlite3* database) const { sqlite3_close(database); }

class SqliteStatement : public Statement {
 public:
  SqliteStatement(SqliteConnection& connection, PreparedByText::node_type prepared)
      : connection_(connection), prepared_(std::move(prepared)) {
    ++connection_.open_statements_;
    total_before_ = sqlite3_total_changes64(connection_.database_.get());
  }
  ~SqliteStatement() override {
    --connection_.open_statements_;
    connection_.give_back(std::move(prepared_));
  }
  const Prepared& prepared() const { return prepared_.mapped(); }
  sqlite3_stmt* handle() const { return prepared().handle.get(); }

  Result<bool> step() override {
    const int status = sqlite3_step(handle());
    if (auto error = connection_.judge(status, prepared_.key())) return refuse(std::move(*error));
    return status == SQLITE_ROW;
  }
  std::int64_t changed_rows() const override {
    sqlite3* database = connection_.database_.get();
    return sqlite3_total_changes64(database) == total_before_ ? 0 : sqlite3_changes64(database);
  }
  bool is_change() const override { return sqlite3_stmt_readonly(handle()) == 0; }
  int column_count() const override { return sqlite3_column_count(handle()); }
  Parameter::Value column(int index) const override;

 private:
  SqliteConnection& connection_;
  PreparedByText::node_type prepared_;
  std::int64_t total_before_;
};

Parameter::Value SqliteStatement::column(int index) const {
  HW_ASSERT(index >= 0 && index < column_count(), "the column is one of the statement's");
  const auto bytes = [&] { return static_cast<std::size_t>(sqlite3_column_bytes(handle(), index)); };
  switch (sqlite3_column_type(handle(), index)) {
    case SQLITE_INTEGER:
      return std::int64_t{sqlite3_column_int64(handle(), index)};
    case SQLITE_FLOAT:
      return sqlite3_column_double(handle(), index);
    case SQLITE_TEXT: {
      const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(handle(), index));
      return std::string_view(text, bytes());
    }
    case SQLITE_BLOB: {
      const auto* begin = static_cast<const std::byte*>(sqlite3_column_blob(handle(), index));
      return std::span<const std::byte>(begin, bytes());
    }
    default:
      return std::monostate();
  }
}

SqliteConnection::~SqliteConnection() { HW_ASSERT(open_statements_ == 0, "a connection outlives its rows"); }

Result<std::unique_ptr<Statement>> SqliteConnection::start(std::string_view sql, std::span<const Parameter> arguments) {
  check_usable();
  auto prepared = take_prepared(sql);
  if (!prepared) return refuse(prepared.error());
  auto statement = std::make_unique<SqliteStatement>(*this, std::move(*prepared));
  if (auto bound = bind(statement->prepared(), arguments); !bound) return refuse(bound.error());
  return statement;
}

Result<PreparedByText::node_type> SqliteConnection::take_prepared(std::string_view sql) {
  if (const auto found = idle_.find(sql); found != idle_.end()) return idle_.extract(found);
  auto prepared = prepare(sql);
  if (!prepared) return refuse(prepared.error());
  return idle_.extract(idle_.emplace(std::string(sql), std::move(*prepared)).first);
}

Result<Prepared> SqliteConnection::prepare(std::string_view sql) {
  sqlite3_stmt* handle = nullptr;
  const char* tail = nullptr;
  const int status = sqlite3_prepare_v3(database_.get(), sql.data(), static_cast<int>(sql.size()),
                                        SQLITE_PREPARE_PERSISTENT, &handle, &tail);
  Prepared prepared{std::unique_ptr<sqlite3_stmt, FinalizeStatement>(handle), {}};
  if (auto error = judge(status, sql)) return refuse(std::move(*error));
  HW_ASSERT(handle != nullptr && tail == sql.data() + sql.size(), "one statement at a time, without a semicolon");
  for (int number = 1; number <= sqlite3_bind_parameter_count(handle); ++number) {
    const int position = sqlite3_bind_parameter_index(handle, fmt::format("${}", number).c_str());
    HW_ASSERT(position > 0, "parameters are $1, $2, ... without a gap");
    prepared.parameter_positions.push_back(position);
  }
  return prepared;
}

void SqliteConnection::give_back(PreparedByText::node_type statement) {
  sqlite3_stmt* handle = statement.mapped().handle.get();
  sqlite3_reset(handle);  // its status was judged when it was stepped
  sqlite3_clear_bindings(handle);
  if (idle_.size() >= idle_statements_max) idle_.erase(idle_.begin());
  idle_.insert(std::move(statement));
}

Result<void> SqliteConnection::bind(const Prepared& statement, std::span<const Parameter> arguments) {
  HW_ASSERT(arguments.size() == statement.parameter_positions.size(), "as many arguments as parameters");
  sqlite3_stmt* handle = statement.handle.get();
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const int position = statement.parameter_positions[i];
    const auto& value = arguments[i].value();
    int status = SQLITE_OK;
    if (const auto* number = std::get_if<std::int64_t>(&value)) {
      status = sqlite3_bind_int64(handle, position, *number);
    } else if (const auto* real = std::get_if<double>(&value)) {
      if (std::isnan(*real)) return refuse(ErrorCode::bad_input, "${}: not a number; unknown is stored as null", i + 1);
      status = sqlite3_bind_double(handle, position, *real);
    } else if (const auto* text = std::get_if<std::string_view>(&value)) {
      const char* begin = text->empty() ? "" : text->data();  // a null pointer would store null
      status = sqlite3_bind_text64(handle, position, begin, text->size(), SQLITE_TRANSIENT, SQLITE_UTF8);
    } else if (const auto* bytes = std::get_if<std::span<const std::byte>>(&value)) {
      const void* begin = bytes->empty() ? static_cast<const void*>("") : bytes->data();
      status = sqlite3_bind_blob64(handle, position, begin, bytes->size(), SQLITE_TRANSIENT);
    }
    if (auto error = judge(status, sqlite3_sql(handle))) return refuse(std::move(*error));
  }
  return {};
}

Result<void> SqliteConnection::run_script(const std::string& sql) {
  check_usable();
  const int status = sqlite3_exec(database_.get(), sql.c_str(), nullptr, nullptr, nullptr);
  if (auto error = judge(status, sql)) return refuse(std::move(*error));
  return {};
}

Result<std::vector<std::string>> SqliteConnection::columns_of(std::string_view table) {
  HW_TAKE(rows, query("select name from pragma_table_info($1) order by cid", table));
  std::vector<std::string> names;
  while (rows.next()) names.push_back(rows.get<std::string>(0));
  return names;
}

Result<int> SqliteConnection::schema_version() {
  const auto version = query_value<int>("pragma user_version");
  if (!version) return refuse(version.error());
  return version->value_or(0);
}

Result<void> SqliteConnection::set_schema_version(int version) {
  return run_script(fmt::format("pragma user_version = {}", version));
}

Result<void> SqliteConnection::begin() {
  HW_ASSERT(!is_in_transaction_, "transactions do not nest");
  auto begun = run_script(access_ == Access::write ? "begin immediate" : "begin");
  is_in_transaction_ = begun.has_value();
  return begun;
}

Result<void> SqliteConnection::commit() {
  auto committed = run_script("commit");
  if (committed) is_in_transaction_ = false;
  return committed;
}

void SqliteConnection::roll_back() noexcept {
  is_in_transaction_ = false;
  if (sqlite3_get_autocommit(database_.get()) != 0) return;  // SQLite has done so itself
  // A failure leaves the transaction uncommitted on disk; the connection must not be used with it still open.
  const int status = sqlite3_exec(database_.get(), "rollback", nullptr, nullptr, nullptr);
  if (status != SQLITE_OK) broken_ = Error{ErrorCode::disk_full, fmt::format("{}: cannot be rolled back", file_)};
}

// A full disk makes SQLite roll the whole transaction back. What would then follow in it must not be committed piece by
// piece.
void SqliteConnection::check_usable() {
  if (broken_) {
    Error error = *broken_;
    error.message += "; nothing more is done with it until it is opened anew";
    throw StorageFailed(error);
  }
  if (is_in_transaction_ && sqlite3_get_autocommit(database_.get()) != 0) {
    throw StorageFailed({ErrorCode::disk_full, fmt::format("{}: the transaction was rolled back before", file_)});
  }
}

std::optional<Error> SqliteConnection::judge(int status, std::string_view doing) {
  const auto error = [&](ErrorCode code) {
    return Error{code, fmt::format("{}: {}", file_, sqlite3_errmsg(database_.get()))};
  };
  switch (status & 0xff) {
    case SQLITE_OK:
    case SQLITE_ROW:
    case SQLITE_DONE:
      return std::nullopt;
    case SQLITE_CONSTRAINT:
      return error(ErrorCode::conflict);
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return error(ErrorCode::in_use);
    case SQLITE_TOOBIG:
      return error(ErrorCode::too_large);
    case SQLITE_NOMEM:
      throw std::bad_alloc();
    case SQLITE_READONLY:
      HW_ASSERT(access_ == Access::write, "a reading connection changes nothing");
      fail_storage(status);
    case SQLITE_FULL:
    case SQLITE_IOERR:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
    case SQLITE_PROTOCOL:
      fail_storage(status);
    default:
      fail_assertion(sqlite3_errmsg(database_.get()), std::string(doing).c_str(), __FILE__, __LINE__);
  }
}

Error SqliteConnection::storage_error(int status) {
  const int kind = status & 0xff;
  const bool is_damage = kind == SQLITE_CORRUPT || kind == SQLITE_NOTADB;
  Error error{is_damage ? ErrorCode::corrupt : ErrorCode::disk_full,
              fmt::format("{}: {} (SQLite status {})", file_, sqlite3_errmsg(database_.get()), status)};
  error.saying = Saying{kind == SQLITE_FULL ? "disk-full" : "disk-failed"};
  if (is_damage || kind == SQLITE_IOERR) broken_ = error;
  return error;
}

void SqliteConnection::fail_storage(int status) { throw StorageFailed(storage_error(status)); }

void SqliteConnection::write_back_by_itself() { sqlite3_wal_hook(database_.get(), write_back, this); }

// Called after a commit, which is on disk by then and has succeeded whatever happens here. SQLite's own hook would keep
// a failed read, write or sync of the file to itself; a full disk leaves the log as it is, and it is tried again.
int SqliteConnection::write_back(void* connection, sqlite3* database, const char* schema, int log_pages) {
  if (log_pages < log_pages_max) return SQLITE_OK;
  const int status = sqlite3_wal_checkpoint_v2(database, schema, SQLITE_CHECKPOINT_PASSIVE, nullptr, nullptr);
  const int kind = status & 0xff;
  if (kind == SQLITE_IOERR || kind == SQLITE_CORRUPT || kind == SQLITE_NOTADB) {
    static_cast<SqliteConnection*>(connection)->storage_error(status);
  }
  return SQLITE_OK;
}

}  // namespace hw::sql
