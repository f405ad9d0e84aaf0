#include "libs/sql/postgres_connection.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <new>
#include <vector>

#include <fmt/format.h>
#include <libpq-fe.h>

#include "libs/sql/postgres_tenants.h"

namespace hw::sql {
namespace {

constexpr std::size_t prepared_max = 512;
const std::string first_savepoint = "savepoint statement";
const std::string renewed_savepoint = "release savepoint statement; savepoint statement";

std::string first_line(std::string_view text) { return std::string(text.substr(0, text.find('\n'))); }

// A class of SQLSTATE (PostgreSQL, appendix A): "23" of "23505".
bool is_of(std::string_view state, std::string_view prefix) { return state.starts_with(prefix); }

bool is_any(std::string_view state, std::initializer_list<std::string_view> ones) {
  return std::find(ones.begin(), ones.end(), state) != ones.end();
}

}  // namespace

void CloseServer::operator()(pg_conn* server) const { PQfinish(server); }
void ClearAnswer::operator()(pg_result* answer) const { PQclear(answer); }

Parameter::Value value_in(const pg_result* answer, int row, int column) {
  HW_ASSERT(column >= 0 && column < PQnfields(answer), "the column is one of the statement's");
  if (PQgetisnull(answer, row, column) != 0) return std::monostate();
  const auto size = static_cast<std::size_t>(PQgetlength(answer, row, column));
  return value_of(static_cast<PostgresType>(PQftype(answer, column)), {PQgetvalue(answer, row, column), size});
}

std::int64_t changed_in(const ServerAnswer& answer) {
  std::int64_t rows = 0;
  const std::string_view text = PQcmdTuples(answer.get());
  std::from_chars(text.data(), text.data() + text.size(), rows);
  return rows;
}

SentArguments::SentArguments(std::span<const PostgresArgument> arguments) {
  for (const PostgresArgument& argument : arguments) {
    values.push_back(argument.is_null ? nullptr : argument.bytes.data());
    lengths.push_back(static_cast<int>(argument.bytes.size()));
    forms.push_back(binary_form);
  }
}

class PostgresStatement : public Statement {
 public:
  PostgresStatement(PostgresConnection& connection, PostgresConnection::Prepared prepared)
      : connection_(connection), prepared_(std::move(prepared)) {
    ++connection_.open_statements_;
  }
  ~PostgresStatement() override { --connection_.open_statements_; }
  PostgresStatement(const PostgresStatement&) = delete;
  PostgresStatement& operator=(const PostgresStatement&) = delete;

  Result<bool> step() override {
    if (!answer_) {
      HW_TAKE(answer, connection_.run_prepared(prepared_));
      answer_ = std::move(answer);
    }
    return ++row_ < PQntuples(answer_.get());
  }
  std::int64_t changed_rows() const override { return is_change() ? changed_in(answer_) : 0; }
  bool is_change() const override {
    const std::string_view tag = PQcmdStatus(answer_.get());
    return tag.starts_with("INSERT") || tag.starts_with("UPDATE") || tag.starts_with("DELETE");
  }
  int column_count() const override { return PQnfields(answer_.get()); }
  Parameter::Value column(int index) const override { return value_in(answer_.get(), row_, index); }

 private:
  PostgresConnection& connection_;
  PostgresConnection::Prepared prepared_;
  ServerAnswer answer_;
  int row_ = -1;
};

PostgresConnection::PostgresConnection(Server server, std::string name, Access access, const PostgresOptions& options)
    : server_(std::move(server)), name_(std::move(name)), access_(access), options_(options) {}

PostgresConnection::~PostgresConnection() { HW_ASSERT(open_statements_ == 0, "a connection outlives its rows"); }

Result<PostgresConnection::Prepared> PostgresConnection::prepare(std::string_view sql,
                                                                 std::span<const Parameter> arguments) {
  check_usable();
  Prepared prepared{std::string(sql), {}, {}};
  for (std::size_t i = 0; i < arguments.size(); ++i) {
    const auto* real = std::get_if<double>(&arguments[i].value());
    if (real && std::isnan(*real)) {
      return refuse(ErrorCode::bad_input, "${}: not a number; unknown is stored as null", i + 1);
    }
    prepared.arguments.push_back(argument_of(arguments[i].value()));
  }
  HW_TAKE(name, prepared_for(prepared.sql, prepared.arguments));
  prepared.name = std::move(name);
  return prepared;
}

Result<std::unique_ptr<Statement>> PostgresConnection::start(std::string_view sql,
                                                             std::span<const Parameter> arguments) {
  HW_TAKE(prepared, prepare(sql, arguments));
  return std::make_unique<PostgresStatement>(*this, std::move(prepared));
}

Result<std::string> PostgresConnection::prepared_for(const std::string& sql,
                                                     std::span<const PostgresArgument> arguments) {
  std::vector<Oid> types;
  std::string key = sql;
  for (const PostgresArgument& argument : arguments) {
    types.push_back(static_cast<Oid>(argument.type));
    key += fmt::format("\n{}", types.back());
  }
  if (const auto there = prepared_.find(key); there != prepared_.end()) return there->second;
  if (prepared_.size() >= prepared_max) {
    HW_TRY(run_script("deallocate all"));
    prepared_.clear();
  }
  std::string name = fmt::format("s{}", ++prepared_count_);
  ServerAnswer answer(
      PQprepare(server_.get(), name.c_str(), sql.c_str(), static_cast<int>(types.size()), types.data()));
  HW_TRY(judge(std::move(answer), sql));
  prepared_.emplace(std::move(key), name);
  return name;
}

// A statement that is refused in a transaction undoes itself alone, as SQLite has it.
Result<void> PostgresConnection::set_savepoint() {
  if (!is_undone_alone()) return {};
  return run_script(std::exchange(has_savepoint_, true) ? renewed_savepoint : first_savepoint);
}

Result<void> PostgresConnection::undo_to_savepoint() {
  if (!is_undone_alone()) return {};
  return run_script("rollback to savepoint statement");
}

Result<ServerAnswer> PostgresConnection::run_prepared(const Prepared& prepared) {
  check_usable();
  HW_TRY(set_savepoint());
  const SentArguments sent(prepared.arguments);
  auto answer =
      judge(ServerAnswer(PQexecPrepared(server_.get(), prepared.name.c_str(), sent.count(), sent.values.data(),
                                        sent.lengths.data(), sent.forms.data(), binary_form)),
            prepared.sql);
  if (!answer) HW_TRY(undo_to_savepoint());
  return answer;
}

Result<void> PostgresConnection::run_script(const std::string& sql) {
  check_usable();
  HW_TRY(judge(ServerAnswer(PQexec(server_.get(), sql.c_str())), sql));
  return {};
}

Result<std::vector<std::string>> PostgresConnection::columns_of(std::string_view table) {
  HW_TAKE(rows, query("select attname::text from pg_attribute where attrelid = to_regclass($1) and attnum > 0 and not "
                      "attisdropped order by attnum",
                      table));
  std::vector<std::string> names;
  while (rows.next()) names.push_back(rows.get<std::string>(0));
  return names;
}

Result<int> PostgresConnection::schema_version() {
  HW_TAKE(is_there, query_value<bool>("select to_regclass('schema_version') is not null"));
  if (!is_there.value_or(false)) return 0;
  HW_TAKE(version, query_value<int>("select version from schema_version"));
  return version.value_or(0);
}

Result<void> PostgresConnection::set_schema_version(int version) {
  return run_script(
      fmt::format("create table if not exists schema_version(version bigint not null);"
                  "delete from schema_version; insert into schema_version values({})",
                  version));
}

Result<void> PostgresConnection::act_for(std::string_view tenant) {
  HW_ASSERT(!is_in_transaction_, "a transaction is of one tenant");
  if (tenant == this->tenant() && !tenant.empty()) return {};
  HW_TRY(query_value<std::string>("select set_config($1, $2, false)", tenant_setting, tenant));
  return Connection::act_for(tenant);
}

bool PostgresConnection::is_there() {
  if (broken_) return false;
  // A server that ends says so first: the end itself is seen by the next look.
  const bool is_open = PQconsumeInput(server_.get()) == 1 && PQconsumeInput(server_.get()) == 1;
  return is_open && PQstatus(server_.get()) == CONNECTION_OK;
}

Result<void> PostgresConnection::begin() {
  HW_ASSERT(!is_in_transaction_, "transactions do not nest");
  has_savepoint_ = false;
  const std::string sql = access_ == Access::read
                              ? "begin isolation level repeatable read read only"
                              : fmt::format(
                                    "begin; set local lock_timeout = {}; select pg_advisory_xact_lock({}, "
                                    "hashtext(coalesce(current_setting('{}', true), ''))); set local lock_timeout = 0",
                                    options_.busy_timeout.count(), options_.writers, tenant_setting);
  auto begun = run_script(sql);
  is_in_transaction_ = true;
  ++transaction_count_;
  if (!begun) roll_back();
  return begun;
}

Result<void> PostgresConnection::commit() {
  auto committed = run_script("commit");
  if (committed) is_in_transaction_ = false;
  return committed;
}

void PostgresConnection::roll_back() noexcept {
  is_in_transaction_ = false;
  if (broken_ || PQtransactionStatus(server_.get()) == PQTRANS_IDLE) return;
  const ServerAnswer answer(PQexec(server_.get(), "rollback"));
  if (PQresultStatus(answer.get()) == PGRES_COMMAND_OK) return;
  broken_ = Error{ErrorCode::unreachable, fmt::format("{}: cannot be rolled back", name_), Saying{"disk-failed"}};
}

void PostgresConnection::check_usable() const {
  HW_ASSERT(!is_occupied_, "nothing else is done while rows come or go one by one");
  if (!broken_) return;
  Error error = *broken_;
  error.message += "; nothing more is done with it until it is opened anew";
  throw StorageFailed(error);
}

Result<ServerAnswer> PostgresConnection::judge(ServerAnswer answer, std::string_view doing) {
  switch (PQresultStatus(answer.get())) {
    case PGRES_COMMAND_OK:
    case PGRES_TUPLES_OK:
    case PGRES_SINGLE_TUPLE:
    case PGRES_COPY_IN:
      return answer;
    default:
      return refused(answer, doing);
  }
}

Result<ServerAnswer> PostgresConnection::refused(const ServerAnswer& answer, std::string_view doing) {
  const char* said = answer ? PQresultErrorField(answer.get(), PG_DIAG_SQLSTATE) : nullptr;
  const std::string_view state = said ? said : "";
  const char* primary = answer ? PQresultErrorField(answer.get(), PG_DIAG_MESSAGE_PRIMARY) : nullptr;
  const std::string message =
      fmt::format("{}: {}", name_, primary ? std::string(primary) : first_line(PQerrorMessage(server_.get())));
  // What has no state was not said by the server: the line to it is lost, whether libpq has noticed yet or not.
  if (state.empty() || PQstatus(server_.get()) == CONNECTION_BAD || is_of(state, "08") || is_of(state, "57P")) {
    broken_ = Error{ErrorCode::unreachable, message, Saying{"disk-failed"}};
    throw StorageFailed(*broken_);
  }
  if (is_of(state, "23") || state == "P0001") return refuse(ErrorCode::conflict, "{}", message);
  if (state == "42501") return refuse(ErrorCode::not_allowed, "{}", message);
  if (is_any(state, {"55P03", "40001", "40P01"})) return refuse(ErrorCode::in_use, "{}", message);
  if (is_of(state, "22")) return refuse(ErrorCode::bad_input, "{}", message);
  if (is_of(state, "54")) return refuse(ErrorCode::too_large, "{}", message);
  if (state == "53200") throw std::bad_alloc();
  const bool is_damage = is_of(state, "XX0");
  if (is_damage || is_of(state, "58") || state == "53100" || (state == "25006" && access_ == Access::write)) {
    Error error{is_damage ? ErrorCode::corrupt : ErrorCode::disk_full, message};
    error.saying = Saying{state == "53100" ? "disk-full" : "disk-failed"};
    if (state != "53100") broken_ = error;
    throw StorageFailed(error);
  }
  fail_assertion(message.c_str(), std::string(doing).c_str(), __FILE__, __LINE__);
}

}  // namespace hw::sql
