#pragma once
// Many rows into one table, within a transaction: by COPY on PostgreSQL, by one prepared insert on SQLite.
//
//   HW_TAKE(days, db.begin_rows({"counter_day", {"plant", "day_on", "amount"}, {"plant", "day_on"}}));
//   for (const auto& day : all) HW_TRY(days->add(std::array<Parameter, 3>{plant, day.on, day.amount}));
//   HW_TRY(days->end());

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "libs/sql/value.h"
#include "libs/values/result.h"

namespace hw::sql {

// What becomes of a row that is there with the key of a new one: it gets the other columns of the new one, or stays.
enum class Present { replaced, kept };

struct BulkTarget {
  std::string table;
  std::vector<std::string> columns;
  // Of the table, where rows may be there with the same values in these. No two of the new ones have the same key then.
  std::vector<std::string> key = {};
  Present present = Present::replaced;
};

// All of them are stored, or, where one is refused or end() is never called, none; the transaction goes on either way.
class BulkRows {
 public:
  virtual ~BulkRows() = default;
  // One value for each column; it is looked at only until the call returns. Refuses (bad_input) NaN, text with the
  // character 0, and a value that is not of its column's type. Other refusals may wait for a later row, or for the end.
  virtual Result<void> add(std::span<const Parameter> row) = 0;
  // How many there were. Refuses what `execute` refuses of an insert.
  virtual Result<std::int64_t> end() = 0;
};

// What add() refuses on every database; `column` from 1.
Result<void> check_bulk_value(const Parameter::Value& value, std::size_t column);

// " on conflict(key) do update set other = excluded.other", or do nothing; ""  for a target without key.
std::string replacing_clause(const BulkTarget& target);

}  // namespace hw::sql
