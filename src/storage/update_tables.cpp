#include "src/storage/update_tables.h"

#include <vector>

#include "libs/values/instant.h"
#include "src/copies/copy_name.h"
#include "src/storage/copying.h"
#include "src/storage/work_folder.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view before = "before-update-";

// before-update-2026-11-26T020000Z.copy
std::string update_copy_name(Instant now) {
  const std::string nightly = copies::copy_name(now);
  return fmt::format("{}{}", before, nightly.substr(nightly.find('-') + 1));
}

std::vector<fs::path> earlier_copies(const fs::path& data, const fs::path& but) {
  std::vector<fs::path> found;
  std::error_code error;
  for (const auto& one : fs::directory_iterator(data, error)) {
    const std::string name = one.path().filename().string();
    const bool is_ours = name.starts_with(before) && name.ends_with(".copy") && name != but.filename().string();
    if (is_ours) found.push_back(one.path());
  }
  return found;
}

Result<void> copy_before(const fs::path& data) {
  const fs::path database = data / database_file;
  std::error_code error;
  HW_TRY(check_room(data, 3 * fs::file_size(database, error), "bringing the shop to this version, with a copy before"));
  const fs::path file = data / update_copy_name(now());
  fs::remove(file, error);  // of the same second
  HW_TRY(make_copy(data, file, now()));
  for (const fs::path& earlier : earlier_copies(data, file)) fs::remove(earlier, error);
  return {};
}

}  // namespace

Result<void> update_tables(const DatabasePlace& place, sql::Connection& writer, std::span<const sql::Migration> steps) {
  HW_TAKE(present, writer.schema_version());
  if (present > 0 && present < static_cast<int>(steps.size())) {
    HW_TAKE(founded, writer.query_value<int>("select count(*) from plant"));
    const auto copied = founded.value_or(0) > 0 ? copy_before(place.folder) : Result<void>{};
    if (!copied)
      return refuse(copied.error().at("the shop is from an earlier version, and was not brought to this one"));
  }
  return apply_steps(writer, place, steps);
}

}  // namespace hw::storage
