#include "src/storage/logbook_rows.h"

#include <array>

#include "libs/formats/json.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/derived_check.h"
#include "src/storage/derived_rows.h"
#include "src/storage/photo_check.h"

namespace hw::storage {
namespace {

// The columns that are sealed besides the ordinal, in the table's order.
constexpr std::array<std::string_view, 14> sealed_columns = {"plant",   "id",       "kind",      "machine",     "task",
                                                             "by_name", "at_ms",    "device_ms", "happened_ms", "says",
                                                             "note",    "counters", "body",      "undoes"};

std::optional<std::string> decimal(const std::optional<Instant>& at) {
  return at ? std::optional{std::to_string(at->as_millis())} : std::nullopt;
}

// An entry with what of it is kept as JSON.
struct EntryTexts {
  const service::Entry& entry;
  std::string counters;
  std::string body;
};

EntryTexts texts_of(const service::Entry& entry) {
  return {entry, formats::print_json(entry.counters), formats::print_json(entry.body)};
}

// In the order of sealed_columns, as they will read in the table.
std::vector<record::Field> fields_of(const EntryTexts& texts, const std::string& plant) {
  const service::Entry& entry = texts.entry;
  const std::array<std::optional<std::string>, sealed_columns.size()> values = {plant,
                                                                                entry.id,
                                                                                entry.kind,
                                                                                entry.machine,
                                                                                entry.task,
                                                                                entry.by,
                                                                                decimal(entry.at),
                                                                                decimal(entry.device_at),
                                                                                decimal(entry.happened_at),
                                                                                entry.says,
                                                                                entry.note,
                                                                                texts.counters,
                                                                                texts.body,
                                                                                entry.undoes};
  std::vector<record::Field> fields;
  for (std::size_t i = 0; i < sealed_columns.size(); ++i) fields.push_back({sealed_columns[i], values[i]});
  return fields;
}

struct Link {
  std::string previous_hash;
  std::string hash;
};

Result<void> write_row(sql::Connection& db, const EntryTexts& texts, const Link& link) {
  const service::Entry& entry = texts.entry;
  const auto device_ms = entry.device_at ? std::optional{entry.device_at->as_millis()} : std::nullopt;
  HW_TRY(
      db.execute("insert into entry(plant, ordinal, id, kind, machine, task, by_name, at_ms, device_ms, "
                 "happened_ms, says, note, counters, body, undoes, previous_hash, hash) values($1, $2, $3, $4, $5, $6, "
                 "$7, $8, $9, $10, $11, $12, $13, $14, $15, $16, $17)",
                 db.tenant(), entry.ordinal, entry.id, entry.kind, entry.machine, entry.task, entry.by,
                 entry.at.as_millis(), device_ms, entry.happened_at.as_millis(), entry.says, entry.note, texts.counters,
                 texts.body, entry.undoes, link.previous_hash, link.hash));
  return {};
}

Result<std::optional<record::Head>> read_head(sql::Connection& db) {
  HW_TAKE(rows, db.query("select coalesce(cast(ordinal as bigint), 0), coalesce(cast(hash as text), '') from "
                         "entry_head where plant = $1",
                         db.tenant()));
  if (!rows.next()) return std::optional<record::Head>{};
  return std::optional{record::Head{rows.get<std::int64_t>(0), rows.get<std::string>(1)}};
}

// The entry's own place is behind the head and behind whatever row somebody put there, so that nothing a person enters
// is refused for it; verifying names that row.
Result<std::int64_t> next_ordinal(sql::Connection& db, const record::Head& head) {
  HW_TAKE(last,
          db.query_value<std::int64_t>("select coalesce(max(ordinal), 0) from entry where plant = $1", db.tenant()));
  return std::max(last.value_or(0), head.ordinal) + 1;
}

record::SealedEntry sealed_entry_of(const sql::Rows& rows) {
  record::SealedEntry entry;
  entry.ordinal = rows.get<std::int64_t>(0);
  entry.previous_hash = rows.get<std::string>(1);
  entry.hash = rows.get<std::string>(2);
  for (std::size_t i = 0; i < sealed_columns.size(); ++i) {
    entry.fields.push_back({sealed_columns[i], rows.get<std::optional<std::string>>(static_cast<int>(i) + 3)});
  }
  return entry;
}

// Each column as text, so that none can be of a type that does not read.
std::string sealed_query() {
  std::string columns;
  for (const std::string_view column : sealed_columns) columns += fmt::format(", cast({} as text)", column);
  return fmt::format(
      "select coalesce(cast(ordinal as bigint), 0), coalesce(cast(previous_hash as text), ''), "
      "coalesce(cast(hash as text), ''){} from entry where plant = $1 order by ordinal",
      columns);
}

}  // namespace

Result<void> begin_logbook(sql::Connection& db) {
  HW_TRY(db.execute("insert into entry_head(plant, ordinal, hash) values($1, 0, $2)", db.tenant(),
                    record::first_previous_hash()));
  return {};
}

Result<void> copy_entry(sql::Connection& db, const service::Entry& entry) { return write_row(db, texts_of(entry), {}); }

Result<void> insert_entry(sql::Connection& db, service::Entry& entry) {
  HW_TAKE(head, read_head(db));
  if (!head) return refuse(ErrorCode::corrupt, "the database's entry_head is empty; see hourwright logbook verify");
  HW_TAKE(ordinal, next_ordinal(db, *head));
  entry.ordinal = ordinal;
  const EntryTexts texts = texts_of(entry);
  const std::string hash = record::seal(head->hash, record::canonical_bytes(ordinal, fields_of(texts, db.tenant())));
  HW_TRY(write_row(db, texts, {head->hash, hash}));
  HW_TRY(db.execute("update entry_head set ordinal = $2, hash = $3 where plant = $1", db.tenant(), ordinal, hash));
  return derive_rows(db, entry);
}

Result<void> check_logbook_tables(sql::Connection& db) {
  const std::vector<std::string> ours{"plant",    "ordinal", "id",        "kind",          "machine", "task",
                                      "by_name",  "at_ms",   "device_ms", "happened_ms",   "says",    "note",
                                      "counters", "body",    "undoes",    "previous_hash", "hash"};
  for (const auto& [table, columns] : {std::pair{"entry", sealed_columns.size() + 3}, {"entry_head", std::size_t{3}}}) {
    HW_TAKE(there, db.columns_of(table));
    const auto count = std::count_if(there.begin(), there.end(), [&](const std::string& column) {
      return std::find(ours.begin(), ours.end(), column) != ours.end();
    });
    if (count == static_cast<std::ptrdiff_t>(columns)) continue;
    return refuse(ErrorCode::corrupt,
                  "the database's table {} is not as this program makes it: {} of its columns are "
                  "there, not {}",
                  table, count, columns);
  }
  return {};
}

Result<record::Verdict> read_chain(sql::Connection& db, const std::optional<std::string>& noted) {
  record::Verifier verifier;
  HW_TAKE(rows, db.stream(sealed_query(), db.tenant()));
  while (rows.next()) verifier.take(sealed_entry_of(rows));
  HW_TAKE(head, read_head(db));
  return verifier.end(head, noted);
}

Result<record::Verdict> read_verdict(sql::Connection& db, const std::optional<std::string>& noted) {
  HW_TAKE(verdict, read_chain(db, noted));
  // What follows from entries that are not as they were written says nothing.
  if (verdict.breaks.empty()) {
    HW_TAKE(differences, compare_derived(db));
    verdict.breaks = std::move(differences);
  }
  HW_TRY(check_photos(db, verdict));
  return std::move(verdict);
}

}  // namespace hw::storage
