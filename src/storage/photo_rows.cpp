#include "src/storage/photo_rows.h"

#include "src/storage/catalogue_rows.h"

namespace hw::storage {

Result<void> insert_photo(sql::Connection& db, const service::Photo& photo) {
  HW_TRY(db.execute("insert into photo(plant, id, sha256, bytes) values($1, $2, $3, $4)", db.tenant(), photo.id,
                    photo.sha256, std::as_bytes(std::span(photo.bytes))));
  return {};
}

Result<std::optional<service::Photo>> read_photo(sql::Connection& db, std::string_view id) {
  HW_TAKE(rows, db.query("select id, sha256, bytes from photo where plant = $1 and id = $2", db.tenant(), id));
  if (!rows.next()) return std::optional<service::Photo>{};
  const auto bytes = rows.get<sql::Blob>(2);
  return std::optional{service::Photo{rows.get<std::string>(0), rows.get<std::string>(1),
                                      std::string(reinterpret_cast<const char*>(bytes.data()), bytes.size())}};
}

}  // namespace hw::storage
