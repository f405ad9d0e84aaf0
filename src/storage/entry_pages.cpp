#include "src/storage/entry_pages.h"

#include <limits>

#include "libs/values/small_letters.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/entry_reading.h"
#include "src/storage/stored_text.h"

namespace hw::storage {
namespace {

using service::Entry;
using service::EntryFilter;

struct Ordinals {
  std::int64_t first = 0;
  std::int64_t last = std::numeric_limits<std::int64_t>::max();
};

// No entry outside of them fits the filter.
Result<Ordinals> ordinals_for(sql::Connection& db, const EntryFilter& filter) {
  Ordinals ordinals;
  if (filter.before) ordinals.last = *filter.before - 1;
  if (filter.from) {
    HW_TAKE(first, db.query_value<std::int64_t>("select coalesce(min(ordinal), -1) from entry where plant = $1 and "
                                                "happened_ms >= $2",
                                                db.tenant(), millis_of(filter.from).value_or(0)));
    ordinals.first = *first;
    if (ordinals.first < 0) ordinals.last = -1;
  }
  if (filter.until) {
    HW_TAKE(last, db.query_value<std::int64_t>("select coalesce(max(ordinal), -1) from entry where plant = $1 and "
                                               "happened_ms < $2",
                                               db.tenant(), millis_of(filter.until).value_or(0)));
    ordinals.last = std::min(ordinals.last, *last);
  }
  return ordinals;
}

// What the filter does not name is left out of the statement, so that the database sees which index serves; the
// parameter still has to stand in it.
std::string condition(std::string_view parameter, std::string_view type, bool is_asked, std::string_view fits) {
  return is_asked ? fmt::format(" and {}", fits) : fmt::format(" and cast({} as {}) is null", parameter, type);
}

bool has_text(const Entry& entry, const std::string& text) {
  const auto has = [&](const std::string& in) { return in_small_letters(in).find(text) != std::string::npos; };
  return has(entry.says) || (entry.note && has(*entry.note));
}

// Nobody has corrected it.
constexpr std::string_view waits =
    "not exists(select 1 from correction c where c.plant = s.plant and c.corrects = s.entry)";

}  // namespace

// `+` keeps the time out of the choice of an index: the span of ordinals stands for it.
std::string entries_query(const EntryFilter& filter) {
  std::string query = fmt::format("select {} from {} where e.plant = $1 and e.ordinal >= $2 and e.ordinal <= $3",
                                  entry_columns(), filter.only_strays ? "stray s cross join entry e" : "entry e");
  if (filter.only_strays) query += fmt::format(" and s.plant = e.plant and s.entry = e.id and {}", waits);
  query += condition("$4", "text", filter.machine.has_value(), "e.machine = $4");
  query += condition("$5", "text", filter.kind.has_value(), "e.kind = $5");
  query += condition("$6", "text", filter.by.has_value(), "e.by_name = $6");
  query += condition("$7", "bigint", filter.from.has_value(), "+e.happened_ms >= $7");
  query += condition("$8", "bigint", filter.until.has_value(), "+e.happened_ms < $8");
  return query + " order by e.ordinal desc";
}

Result<std::vector<Entry>> read_entries(sql::Connection& db, const EntryFilter& filter, int count_max) {
  HW_TAKE(ordinals, ordinals_for(db, filter));
  const auto from = millis_of(filter.from);
  const auto until = millis_of(filter.until);
  HW_TAKE(rows, db.query(entries_query(filter), db.tenant(), ordinals.first, ordinals.last, filter.machine, filter.kind,
                         filter.by, from, until));
  std::vector<Entry> entries;
  while (static_cast<int>(entries.size()) < count_max && rows.next()) {
    HW_TAKE(entry, read_entry(db, rows));
    if (!filter.text || has_text(entry, *filter.text)) entries.push_back(std::move(entry));
  }
  return entries;
}

Result<std::int64_t> count_strays(sql::Connection& db) {
  HW_TAKE(count, db.query_value<std::int64_t>(
                     fmt::format("select count(*) from stray s where s.plant = $1 and {}", waits), db.tenant()));
  return count.value_or(0);
}

}  // namespace hw::storage
