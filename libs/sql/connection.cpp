#include "libs/sql/connection.h"

#include <vector>

namespace hw::sql {
namespace {

// A value that owns its text or bytes.
using Kept = std::variant<std::monostate, std::int64_t, double, std::string, Blob>;

Kept keep(const Parameter::Value& value) {
  if (const auto* text = std::get_if<std::string_view>(&value)) return std::string(*text);
  if (const auto* bytes = std::get_if<std::span<const std::byte>>(&value)) return Blob(bytes->begin(), bytes->end());
  if (const auto* number = std::get_if<std::int64_t>(&value)) return *number;
  if (const auto* real = std::get_if<double>(&value)) return *real;
  return std::monostate();
}

// The rows of a statement that has already run to its end.
class KeptRows : public Statement {
 public:
  explicit KeptRows(std::int64_t changed_rows) : changed_rows_(changed_rows) {}
  void add(const Statement& statement) {
    auto& row = rows_.emplace_back();
    for (int column = 0; column < statement.column_count(); ++column) row.push_back(keep(statement.column(column)));
  }
  bool has_rows() const { return !rows_.empty(); }

  Result<bool> step() override { return ++at_ < rows_.size(); }
  std::int64_t changed_rows() const override { return changed_rows_; }
  bool is_change() const override { return true; }
  int column_count() const override { return static_cast<int>(rows_[at_].size()); }
  Parameter::Value column(int index) const override {
    const auto view = [](const auto& kept) -> Parameter::Value { return kept; };
    return std::visit(view, rows_[at_].at(static_cast<std::size_t>(index)));
  }

 private:
  std::int64_t changed_rows_;
  std::vector<std::vector<Kept>> rows_;
  std::size_t at_ = 0;
};

}  // namespace

bool Rows::next() {
  if (is_begun_ && has_row_) {
    const auto stepped = statement_->step();
    HW_ASSERT(stepped.has_value(), "a query is refused at its first step only");
    has_row_ = *stepped;
  }
  is_begun_ = true;
  return has_row_;
}

Result<void> Connection::act_for(std::string_view tenant) {
  tenant_ = tenant;
  return {};
}

Result<std::int64_t> Connection::execute_with(std::string_view sql, std::span<const Parameter> arguments) {
  auto statement = start(sql, arguments);
  if (!statement) return refuse(statement.error());
  for (;;) {
    const auto stepped = (*statement)->step();
    if (!stepped) return refuse(stepped.error());
    if (!*stepped) return (*statement)->changed_rows();
  }
}

Result<Rows> Connection::query_with(std::string_view sql, std::span<const Parameter> arguments) {
  auto statement = start(sql, arguments);
  if (!statement) return refuse(statement.error());
  auto has_row = (*statement)->step();
  if (!has_row) return refuse(has_row.error());
  if (!(*statement)->is_change()) return Rows(std::move(*statement), *has_row);
  auto kept = std::make_unique<KeptRows>((*statement)->changed_rows());
  while (*has_row) {
    kept->add(**statement);
    has_row = (*statement)->step();
    if (!has_row) return refuse(has_row.error());
  }
  const bool has_rows = kept->has_rows();
  return Rows(std::move(kept), has_rows);
}

Result<Rows> Connection::stream_with(std::string_view sql, std::span<const Parameter> arguments) {
  HW_TAKE(statement, start_stream(sql, arguments));
  HW_TAKE(has_row, statement->step());
  HW_ASSERT(!statement->is_change(), "what changes something is no long reading");
  return Rows(std::move(statement), has_row);
}

Result<Transaction> Transaction::begin(Connection& connection) {
  if (auto begun = connection.begin(); !begun) return refuse(begun.error());
  return Transaction(connection);
}

Transaction::~Transaction() {
  if (connection_ != nullptr) connection_->roll_back();
}

Result<void> Transaction::commit() {
  HW_ASSERT(connection_ != nullptr, "a transaction is committed once");
  auto committed = connection_->commit();
  if (!committed) connection_->roll_back();
  connection_ = nullptr;
  return committed;
}

}  // namespace hw::sql
