#include "src/storage/grant_files.h"

#include "libs/formats/json.h"
#include "libs/values/whole_file.h"
#include "src/storage/stored_text.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;

fs::path grants_in(const fs::path& folder) { return folder / "grants"; }

fs::path grant_file(const fs::path& folder, const std::string& secret_hash) {
  return grants_in(folder) / (secret_hash + ".json");
}

}  // namespace

Result<void> write_grant(const fs::path& folder, const std::string& secret_hash, const service::Grant& grant) {
  std::error_code error;
  const fs::path place = grants_in(folder);
  fs::create_directory(place, error);
  if (!error) fs::permissions(place, fs::perms::owner_all, error);
  if (error) return refuse(ErrorCode::disk_full, "{}: the folder cannot be made: {}", place.string(), error.message());
  return write_whole_file(grant_file(folder, secret_hash), formats::print_json(grant) + "\n", ReadableBy::owner);
}

Result<std::optional<service::Grant>> read_grant(const fs::path& folder, const std::string& secret_hash) {
  const fs::path file = grant_file(folder, secret_hash);
  std::error_code error;
  if (!fs::exists(file, error)) return std::optional<service::Grant>{};
  HW_TAKE(text, read_whole_file(file));
  HW_TAKE(grant, stored(formats::parse_json<service::Grant>(text), file.string()));
  return std::optional{std::move(grant)};
}

Result<void> drop_grant(const fs::path& folder, const std::string& secret_hash) {
  std::error_code error;
  fs::remove(grant_file(folder, secret_hash), error);
  if (!error) return {};
  return refuse(ErrorCode::disk_full, "{}: it cannot be removed: {}", grant_file(folder, secret_hash).string(),
                error.message());
}

std::vector<std::string> left_grants(const fs::path& folder) {
  std::vector<std::string> hashes;
  std::error_code error;
  for (const auto& one : fs::directory_iterator(grants_in(folder), error)) {
    if (one.path().extension() == ".json") hashes.push_back(one.path().stem().string());
  }
  return hashes;
}

}  // namespace hw::storage
