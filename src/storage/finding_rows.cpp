#include "src/storage/finding_rows.h"

#include "libs/formats/json.h"
#include "src/storage/catalogue_rows.h"
#include "src/storage/entry_reading.h"
#include "src/storage/stored_text.h"

namespace hw::storage {
namespace {

using service::Entry;
using service::Finding;

Result<std::vector<Finding>> findings_of(sql::Rows& rows) {
  std::vector<Finding> findings;
  while (rows.next()) {
    HW_TAKE(finding, stored(formats::parse_json<Finding>(rows.get<std::string_view>(0)), "finding.body"));
    findings.push_back(std::move(finding));
  }
  return findings;
}

Result<void> put_finding(sql::Connection& db, const Finding& finding) {
  const auto settled_ms = finding.settled ? std::optional{finding.settled->at.as_millis()} : std::nullopt;
  HW_TRY(
      db.execute("insert into finding(plant, finding, machine, settled_ms, body) values($1, $2, $3, $4, $5) "
                 "on conflict(plant, finding) do update set machine = excluded.machine, "
                 "settled_ms = excluded.settled_ms, body = excluded.body",
                 db.tenant(), finding.id, finding.machine, settled_ms, formats::print_json(finding)));
  return {};
}

}  // namespace

Result<void> derive_finding(sql::Connection& db, const Entry& entry) {
  if (!entry.body.finding) return {};
  HW_TRY(db.execute("insert into finding_entry(plant, finding, ordinal) values($1, $2, $3)", db.tenant(),
                    *entry.body.finding, entry.ordinal));
  HW_TAKE(entries, read_entries_about(db, *entry.body.finding));
  HW_TAKE(finding, service::finding_of(std::move(entries)));
  return finding ? put_finding(db, *finding) : Result<void>{};
}

Result<std::optional<Finding>> read_finding(sql::Connection& db, std::string_view id) {
  HW_TAKE(rows, db.query("select body from finding where plant = $1 and finding = $2", db.tenant(), id));
  HW_TAKE(findings, findings_of(rows));
  return findings.empty() ? std::nullopt : std::optional{std::move(findings.front())};
}

Result<std::vector<Finding>> read_open_findings(sql::Connection& db, const std::optional<std::string>& machine) {
  HW_TAKE(rows, db.query("select body from finding where plant = $1 and settled_ms is null and "
                         "machine = coalesce($2, machine)",
                         db.tenant(), machine));
  return findings_of(rows);
}

Result<std::vector<Finding>> read_settled_findings(sql::Connection& db, const std::optional<std::string>& machine,
                                                   int count_max) {
  HW_TAKE(rows, db.query("select body from finding where plant = $1 and settled_ms is not null and "
                         "machine = coalesce($2, machine) order by settled_ms desc, finding desc limit $3",
                         db.tenant(), machine, count_max));
  return findings_of(rows);
}

Result<std::vector<Entry>> read_entries_about(sql::Connection& db, std::string_view finding) {
  HW_TAKE(rows, db.query(fmt::format("select {} from finding_entry f join entry e on e.plant = f.plant and "
                                     "e.ordinal = f.ordinal where f.plant = $1 and f.finding = $2 order by f.ordinal",
                                     entry_columns()),
                         db.tenant(), finding));
  return read_entries(db, rows);
}

}  // namespace hw::storage
