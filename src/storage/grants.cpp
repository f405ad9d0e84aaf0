#include "src/storage/grants.h"

#include "libs/values/secret.h"
#include "src/service/access_book.h"
#include "src/storage/database_place.h"
#include "src/storage/grant_files.h"
#include "src/storage/grant_rows.h"
#include "src/storage/open_store.h"

namespace hw::storage {
namespace {

Result<void> keep_on_server(const DatabasePlace& place, const std::string& secret_hash, const service::Grant& grant) {
  HW_TAKE(db, open_database(place, sql::Access::write));
  if (auto kept = insert_grant(*db, secret_hash, grant); kept || kept.error().code != ErrorCode::conflict) return kept;
  return refuse(ErrorCode::not_found, "{}: no shop has been founded here", place.folder.string());
}

}  // namespace

Result<std::string> leave_grant(const std::filesystem::path& folder, const service::Grant& grant) {
  HW_TRY(find_store(folder));
  HW_TAKE(place, place_of(folder));
  const std::string secret = print_base64url(secret_bytes(32));
  const std::string hash = service::hash_of_secret(secret);
  HW_TRY(place.is_on_server() ? keep_on_server(place, hash, grant) : write_grant(folder, hash, grant));
  return secret;
}

}  // namespace hw::storage
