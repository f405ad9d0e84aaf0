#include "src/storage/shipment_rows.h"

#include <algorithm>

#include <fmt/ranges.h>

#include "src/storage/record_digest.h"
#include "src/storage/row_text.h"
#include "src/storage/schema.h"

namespace hw::storage {
namespace {

constexpr std::uint64_t unpacked_bytes_max = std::uint64_t{64} << 30;

// What lies packed elsewhere, as if it were this one's own.
class Borrowed : public formats::ByteSource {
 public:
  explicit Borrowed(formats::ByteSource& source) : source_(source) {}
  Result<std::size_t> read(std::span<char> into) override { return source_.read(into); }
  const std::string& name() const override { return source_.name(); }

 private:
  formats::ByteSource& source_;
};

Result<void> check_head(const ShipmentHead& head, const std::string& plant, std::int64_t number) {
  if (head.plant != plant) {
    return refuse(ErrorCode::bad_input,
                  "it comes from the plant \"{}\", and this is \"{}\"; found the edge's shop with --plant {}",
                  head.plant, plant, plant);
  }
  const auto known = static_cast<int>(migrations().size());
  if (head.schema != known) {
    return refuse(ErrorCode::unsupported,
                  "its tables are of version {}, these are of version {}; one version of the program at both ends "
                  "is right",
                  head.schema, known);
  }
  if (head.number == number) return {};
  return refuse(ErrorCode::bad_input, "it says that it is shipment {}", head.number);
}

// A shipment as it is stored, table by table.
class Storing {
 public:
  Storing(sql::Connection& db, RowReader& reader) : db_(db), reader_(reader) {}

  // Whether there was one more table.
  Result<bool> table() {
    HW_TAKE(mark, reader_.peek());
    if (mark != 't') return false;
    HW_TAKE(line, reader_.line());
    HW_TAKE(head, parse_table_head(line));
    HW_TRY(check_table(head));
    HW_TRY(head.table == "entry_head" ? move_head(head) : store_rows(head));
    HW_TRY(note_gone(head.table));
    return true;
  }

  // Last, since what refers to a row goes before it.
  Result<void> remove_gone() {
    for (auto at = gone_.rbegin(); at != gone_.rend(); ++at) {
      std::vector<std::string> same;
      for (const std::string& column : key_columns(at->table)) {
        same.push_back(fmt::format("{} = ${}", column, same.size() + 1));
      }
      std::vector<sql::Parameter> key;
      for (const Cell& cell : at->key) key.push_back(parameter_of(cell));
      HW_TRY(db_.execute_with(fmt::format("delete from {} where {}", at->table, fmt::join(same, " and ")), key));
    }
    return {};
  }

 private:
  struct Gone {
    std::string table;
    std::vector<Cell> key;
  };

  // Each of them once and in their order: what a row refers to is there before it.
  Result<void> check_table(const TableHead& head) {
    const auto& known = sent_tables();
    const auto at = std::find(known.begin() + next_, known.end(), head.table);
    if (at == known.end()) {
      return refuse(ErrorCode::bad_input, "table {}: not a table that an edge sends, or not in its place", head.table);
    }
    next_ = at - known.begin() + 1;
    HW_TAKE(columns, db_.columns_of(head.table));
    if (columns == head.columns && columns.front() == "plant") return {};
    return refuse(ErrorCode::bad_input, "table {}: its columns are {}", head.table, fmt::join(columns, ", "));
  }

  // The next row with this mark; false where another mark stands.
  Result<bool> row(char mark, std::vector<Cell>& cells) {
    HW_TAKE(next, reader_.peek());
    if (next != mark) return false;
    reader_.pass();
    HW_TRY(reader_.row(cells));
    const auto* plant = std::get_if<std::string>(&cells.front());
    if (plant != nullptr && *plant == db_.tenant()) return true;
    return refuse(ErrorCode::bad_input, "a row of another plant");
  }

  Result<void> store_rows(const TableHead& head) {
    const auto present = is_only_added_to(head.table) ? sql::Present::kept : sql::Present::replaced;
    HW_TAKE(stored, db_.begin_rows({head.table, head.columns, key_columns(head.table), present}));
    std::vector<Cell> cells(head.columns.size());
    for (;;) {
      const auto is_row = row('+', cells);
      if (!is_row) return refuse(is_row.error().at(fmt::format("table {}", head.table)));
      if (!*is_row) break;
      std::vector<sql::Parameter> values;
      for (const Cell& cell : cells) values.push_back(parameter_of(cell));
      const auto added = stored->add(values);
      if (!added) return refuse(added.error().at(fmt::format("table {}", head.table)));
    }
    const auto ended = stored->end();
    return ended ? Result<void>{} : refuse(ended.error().at(fmt::format("table {}", head.table)));
  }

  // The database lets it go on only; the same place again is nothing new.
  Result<void> move_head(const TableHead& head) {
    std::vector<Cell> cells(head.columns.size());
    for (;;) {
      HW_TAKE(is_row, row('+', cells));
      if (!is_row) return {};
      std::vector<sql::Parameter> values;
      for (const Cell& cell : cells) values.push_back(parameter_of(cell));
      HW_TRY(db_.execute_with(
          "insert into entry_head(plant, ordinal, hash) values($1, $2, $3) on conflict(plant) do update "
          "set ordinal = excluded.ordinal, hash = excluded.hash "
          "where excluded.ordinal > entry_head.ordinal",
          values));
    }
  }

  Result<void> note_gone(const std::string& table) {
    std::vector<Cell> key(key_columns(table).size());
    for (;;) {
      HW_TAKE(is_row, row('-', key));
      if (!is_row) return {};
      gone_.push_back({table, key});
    }
  }

  sql::Connection& db_;
  RowReader& reader_;
  std::ptrdiff_t next_ = 0;
  std::vector<Gone> gone_;
};

Result<void> check_digest(sql::Connection& db, const std::string& said) {
  HW_TAKE(here, record_digest(db, sent_tables()));
  if (said == here.sha256) return {};
  return refuse(
      ErrorCode::conflict,
      "what the edge has and what came from it before do not go together: its record was restored from a copy "
      "that is older than what it had sent, or another plant's was sent here; docs/operations/edge.md says "
      "what can be done");
}

Result<ShipmentHead> store_unpacked(sql::Connection& db, RowReader& reader, std::int64_t number) {
  HW_TAKE(first, reader.line());
  HW_TAKE(head, parse_head(first));
  HW_TRY(check_head(head, db.tenant(), number));
  Storing storing(db, reader);
  for (;;) {
    HW_TAKE(is_table, storing.table());
    if (!is_table) break;
  }
  HW_TRY(storing.remove_gone());
  HW_TAKE(line, reader.line());
  if (head.is_whole) {
    HW_TRY(check_digest(db, line.starts_with("digest ") ? line.substr(7) : ""));
    HW_TAKE(last, reader.line());
    line = last;
  }
  if (line != "end") return refuse(ErrorCode::bad_input, "\"{}\" is not how a shipment ends", line.substr(0, 60));
  HW_TAKE(is_over, reader.is_at_end());
  if (!is_over) return refuse(ErrorCode::bad_input, "something comes behind its end");
  return head;
}

}  // namespace

Result<ShipmentHead> store_shipment(sql::Connection& db, formats::ByteSource& packed, std::int64_t number) {
  HW_TAKE(unpacked, formats::unpacked(std::make_unique<Borrowed>(packed), unpacked_bytes_max));
  RowReader reader(*unpacked);
  auto head = store_unpacked(db, reader, number);
  return head ? head : refuse(head.error().at(fmt::format("shipment {}", number)));
}

}  // namespace hw::storage
