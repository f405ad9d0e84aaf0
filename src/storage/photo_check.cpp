#include "src/storage/photo_check.h"

#include <map>

#include "libs/formats/json.h"
#include "libs/values/sha256.h"
#include "src/service/entry_body.h"
#include "src/storage/catalogue_rows.h"

namespace hw::storage {
namespace {

using record::BreakKind;

// By a photo's id the SHA-256 of its bytes; nothing where the hash beside them is another.
using Hashes = std::map<std::string, std::optional<std::string>>;

Result<Hashes> read_hashes(sql::Connection& db, record::Verdict& verdict) {
  Hashes hashes;
  HW_TAKE(rows, db.stream("select id, sha256, bytes from photo where plant = $1 order by id", db.tenant()));
  while (rows.next()) {
    const auto id = rows.get<std::string>(0);
    const auto bytes = rows.get<sql::Blob>(2);
    const std::string hash = print_hex(sha256({reinterpret_cast<const char*>(bytes.data()), bytes.size()}));
    const bool is_whole = hash == rows.get<std::string_view>(1);
    hashes[id] = is_whole ? std::optional{hash} : std::nullopt;
    if (is_whole) continue;
    verdict.breaks.push_back({BreakKind::photo, 0, fmt::format("photo {} was altered: it is not what was kept", id)});
  }
  return hashes;
}

void judge(const service::PhotoName& name, std::int64_t entry, const Hashes& hashes, record::Verdict& verdict) {
  const auto there = hashes.find(name.id);
  if (there == hashes.end()) {
    verdict.photos_awaited.push_back({entry, name.id});
  } else if (there->second && *there->second != name.sha256) {
    verdict.breaks.push_back({BreakKind::photo, entry,
                              fmt::format("photo {} is not the one that entry {} names: it was exchanged, or another "
                                          "was sent under its id",
                                          name.id, entry)});
  }
}

}  // namespace

Result<void> check_photos(sql::Connection& db, record::Verdict& verdict) {
  HW_TAKE(hashes, read_hashes(db, verdict));
  HW_TAKE(rows, db.stream("select coalesce(cast(ordinal as bigint), 0), coalesce(cast(body as text), '') from entry "
                          "where plant = $1 and body like '%\"photos\"%' order by ordinal",
                          db.tenant()));
  while (rows.next()) {
    const auto body = formats::parse_json<service::EntryBody>(rows.get<std::string_view>(1));
    if (!body || !body->photos) continue;
    for (const auto& name : *body->photos) judge(name, rows.get<std::int64_t>(0), hashes, verdict);
  }
  return {};
}

}  // namespace hw::storage
