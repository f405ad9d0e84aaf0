#include "src/storage/work_folder.h"

#include <utility>

#include <unistd.h>

namespace hw::storage {
namespace {

namespace fs = std::filesystem;

}  // namespace

Result<WorkFolder> WorkFolder::make(const fs::path& path) {
  std::error_code error;
  fs::remove_all(path, error);  // of a process of this number that was killed
  fs::create_directory(path, error);
  if (!error) fs::permissions(path, fs::perms::owner_all, error);
  if (!error) return WorkFolder(path);
  const auto code = fs::is_directory(path.parent_path()) ? ErrorCode::disk_full : ErrorCode::not_found;
  return refuse(code, "{}: the folder cannot be made: {}", path.string(), error.message());
}

WorkFolder::WorkFolder(WorkFolder&& other) noexcept : path_(std::exchange(other.path_, fs::path{})) {}

WorkFolder::~WorkFolder() {
  std::error_code ignored;
  if (!path_.empty()) fs::remove_all(path_, ignored);
}

fs::path WorkFolder::release() { return std::exchange(path_, fs::path{}); }

fs::path work_beside(const fs::path& file) {
  const fs::path whole = fs::absolute(file).lexically_normal();
  const fs::path named = whole.has_filename() ? whole : whole.parent_path();  // "folder/" is the folder
  return named.parent_path() / fmt::format(".{}.work.{}", named.filename().string(), ::getpid());
}

Result<void> check_room(const fs::path& folder, std::uint64_t bytes, std::string_view what_for) {
  std::error_code error;
  const fs::space_info space = fs::space(folder, error);
  if (error) return refuse(ErrorCode::not_found, "{}: {}", folder.string(), error.message());
  if (space.available >= bytes) return {};
  return refuse(ErrorCode::disk_full, "{}: {} needs {:.0f} MB free, and {:.0f} MB are; make room, or use another disk",
                folder.string(), what_for, static_cast<double>(bytes) / 1e6,
                static_cast<double>(space.available) / 1e6);
}

Result<void> check_is_new(const fs::path& folder) {
  std::error_code error;
  const fs::path above = fs::absolute(work_beside(folder)).parent_path();
  if (!fs::is_directory(above, error)) {
    return refuse(ErrorCode::not_found, "{}: there is no folder {} to make it in", folder.string(), above.string());
  }
  if (!fs::exists(folder, error)) return {};
  if (!fs::is_directory(folder, error)) return refuse(ErrorCode::bad_input, "{}: it is no folder", folder.string());
  if (fs::is_empty(folder, error)) return {};
  return refuse(ErrorCode::conflict, "{}: something is in it; a folder that is new or empty is right", folder.string());
}

}  // namespace hw::storage
