#include "src/storage/grant_rows.h"

#include "libs/formats/json.h"
#include "src/storage/stored_text.h"

namespace hw::storage {

Result<void> insert_grant(sql::Connection& db, const std::string& secret_hash, const service::Grant& grant) {
  HW_TRY(db.execute("insert into grant_left(plant, secret_hash, body) values($1, $2, $3)", db.tenant(), secret_hash,
                    formats::print_json(grant)));
  return {};
}

Result<std::optional<service::Grant>> read_grant(sql::Connection& db, const std::string& secret_hash) {
  HW_TAKE(body, db.query_value<std::string>("select body from grant_left where plant = $1 and secret_hash = $2",
                                            db.tenant(), secret_hash));
  if (!body) return std::optional<service::Grant>{};
  HW_TAKE(grant, stored(formats::parse_json<service::Grant>(*body), "grant_left"));
  return std::optional{std::move(grant)};
}

Result<void> delete_grant(sql::Connection& db, const std::string& secret_hash) {
  HW_TRY(db.execute("delete from grant_left where plant = $1 and secret_hash = $2", db.tenant(), secret_hash));
  return {};
}

}  // namespace hw::storage
