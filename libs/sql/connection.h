#pragma once
// Statements on a database, the same text for SQLite and PostgreSQL: parameters $1, $2, ..., `insert ... on conflict
// ... do update`, `returning`. A connection belongs to one thread at a time.
//
//   auto task = db.execute("insert into task(id, name) values($1, $2)", id, name);   // Result: rows changed
//   auto rows = db.query("select id, note from task where machine = $1", machine);   // Result<Rows>
//   if (!rows) return refuse(rows.error());
//   while (rows->next()) use(rows->get<std::int64_t>(0), rows->get<std::optional<std::string>>(1));
//
// What can go wrong, and how it is said:
//   Result   conflict (a constraint), in_use (somebody else writes for longer than the busy timeout), bad_input (NaN).
//   StorageFailed   the disk is full or fails, the file is damaged. After a failed read or write (not after a full
//   disk)
//            the connection refuses all further work by the same exception: what the system holds in memory and what
//            is on the disk may then differ.
//   assertion   the statement itself is wrong, or a column is read as what it is not.

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <tuple>
#include <type_traits>
#include <utility>
#include <vector>

#include "libs/sql/bulk_rows.h"
#include "libs/sql/storage_failed.h"
#include "libs/sql/value.h"
#include "libs/values/result.h"

namespace hw::sql {

enum class Access {
  write,  // makes what is not there yet
  read,   // it has to be there; every change is refused by the database itself
};

// A statement under way: what a database has to provide to stand behind Rows.
class Statement {
 public:
  virtual ~Statement() = default;
  // To the next row; false after the last. Refusals are possible at the first step only.
  virtual Result<bool> step() = 0;
  virtual std::int64_t changed_rows() const = 0;
  // Whether it can change anything (`insert ... returning` gives rows and changes).
  virtual bool is_change() const = 0;
  virtual int column_count() const = 0;
  // The value in the present row, valid until the next step. Columns from 0.
  virtual Parameter::Value column(int index) const = 0;
};

// The answer to a query, row by row. It must be gone before its connection is.
class Rows {
 public:
  Rows(std::unique_ptr<Statement> statement, bool has_row) : statement_(std::move(statement)), has_row_(has_row) {}

  // To the next row (the first one at first); false after the last.
  bool next();
  // The column of the present row as std::int64_t, int, bool, double, std::string, std::string_view (until next()),
  // Blob, or std::optional of one of them. A null that is not read as optional is our own mistake (assertion).
  template <class T>
  T get(int column) const;
  // The column of the present row as it is, valid until next().
  Parameter::Value value(int column) const { return statement_->column(column); }
  // The first columns at once: auto [id, name] = rows.get_all<std::int64_t, std::string>();
  template <class... T>
  std::tuple<T...> get_all() const;

 private:
  std::unique_ptr<Statement> statement_;
  bool has_row_;
  bool is_begun_ = false;
};

class Connection {
 public:
  virtual ~Connection() = default;

  // Runs a statement to its end and says how many rows it changed (0 for what changes none).
  template <class... Arguments>
  Result<std::int64_t> execute(std::string_view sql, const Arguments&... arguments);
  // The same where the number of arguments is found out while the program runs.
  Result<std::int64_t> execute_with(std::string_view sql, std::span<const Parameter> arguments);
  // Runs a statement that gives rows. Its first step is taken at once, so that a refusal is seen here; one that changes
  // something (`returning`) is run to its end at once, so that what it changed does not depend on how much is read.
  template <class... Arguments>
  Result<Rows> query(std::string_view sql, const Arguments&... arguments);
  // The same for a query that may give any number of rows: each database holds one of them in memory at a time.
  // Nothing else is done with the connection until the rows are gone.
  template <class... Arguments>
  Result<Rows> stream(std::string_view sql, const Arguments&... arguments);
  // The first column of the first row; nothing where there is no row.
  template <class T, class... Arguments>
  Result<std::optional<T>> query_value(std::string_view sql, const Arguments&... arguments);
  // Begins to store many rows, within a transaction; see bulk_rows.h. Nothing else is done with the connection until
  // they are gone.
  virtual Result<std::unique_ptr<BulkRows>> begin_rows(const BulkTarget& target) = 0;
  // Several statements without parameters, separated by semicolons.
  virtual Result<void> run_script(const std::string& sql) = 0;

  // The names of a table's columns in their order; none where there is no such table.
  virtual Result<std::vector<std::string>> columns_of(std::string_view table) = 0;

  // The number of the last migration that was applied, 0 for none; see migrations.h.
  virtual Result<int> schema_version() = 0;
  virtual Result<void> set_schema_version(int version) = 0;

  // Whose rows its statements are about, where a database keeps those of several: their first argument. PostgreSQL is
  // told too, so that the rules of postgres_tenants.h keep all other rows from it. Empty until act_for; not to be
  // changed within a transaction.
  const std::string& tenant() const { return tenant_; }
  virtual Result<void> act_for(std::string_view tenant);

  // Why it refuses all further work; nothing while it works.
  virtual std::optional<Error> failure() const = 0;
  // Whether the other end is still there, as far as can be seen without asking it.
  virtual bool is_there() { return !failure(); }

 protected:
  friend class Transaction;
  virtual Result<std::unique_ptr<Statement>> start(std::string_view sql, std::span<const Parameter> arguments) = 0;
  // A query whose rows are read one by one.
  virtual Result<std::unique_ptr<Statement>> start_stream(std::string_view sql, std::span<const Parameter> arguments) {
    return start(sql, arguments);
  }
  virtual Result<void> begin() = 0;
  virtual Result<void> commit() = 0;
  virtual void roll_back() noexcept = 0;

 private:
  Result<Rows> query_with(std::string_view sql, std::span<const Parameter> arguments);
  Result<Rows> stream_with(std::string_view sql, std::span<const Parameter> arguments);

  std::string tenant_;
};

// All or nothing: rolled back when it goes out of scope uncommitted, and by the next opening if the process dies. On a
// writing connection it takes the right to write at once, so that it cannot fail half-way for want of it; on a reading
// one it holds one state of the database for all its queries. Transactions do not nest.
class Transaction {
 public:
  // Errors: in_use when somebody else writes for longer than the busy timeout.
  static Result<Transaction> begin(Connection& connection);
  Transaction(Transaction&& other) noexcept : connection_(std::exchange(other.connection_, nullptr)) {}
  Transaction& operator=(Transaction&&) = delete;
  ~Transaction();

  // On disk when it returns. Errors: conflict for constraints that are checked at the end; it is rolled back then.
  Result<void> commit();

 private:
  explicit Transaction(Connection& connection) : connection_(&connection) {}
  Connection* connection_;
};

}  // namespace hw::sql

#include "libs/sql/connection_templates.h"
