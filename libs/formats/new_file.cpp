#include "libs/formats/new_file.h"

#include <cerrno>
#include <cstring>
#include <utility>

#include <fcntl.h>
#include <unistd.h>

namespace hw::formats {
namespace {

namespace fs = std::filesystem;

fs::path folder_of(const fs::path& file) { return file.has_parent_path() ? file.parent_path() : fs::path{"."}; }

Result<void> check_free(const fs::path& file) {
  std::error_code error;
  if (!fs::exists(fs::symlink_status(file, error))) return {};
  return refuse(ErrorCode::conflict, "{}: is there already; name another file", file.string());
}

}  // namespace

Result<NewFile> NewFile::begin(const fs::path& file) {
  HW_TRY(check_free(file));
  std::error_code error;
  const fs::path folder = folder_of(file);
  if (!fs::is_directory(folder, error)) {
    return refuse(ErrorCode::not_found, "{}: there is no folder {}", file.string(), folder.string());
  }
  fs::path fresh = folder / fmt::format(".{}.{}", file.filename().string(), ::getpid());
  const int number = ::open(fresh.c_str(), O_CREAT | O_TRUNC | O_WRONLY | O_CLOEXEC | O_NOFOLLOW, 0600);
  NewFile made(file, std::move(fresh), number);
  if (number < 0) {
    made.fresh_.clear();
    return made.refuse_by_system();
  }
  return made;
}

NewFile::NewFile(NewFile&& other) noexcept
    : file_(std::move(other.file_)),
      fresh_(std::exchange(other.fresh_, fs::path{})),
      number_(std::exchange(other.number_, -1)) {}

NewFile::~NewFile() {
  if (number_ >= 0) ::close(number_);
  if (!fresh_.empty()) ::unlink(fresh_.c_str());
}

tl::unexpected<Error> NewFile::refuse_by_system() const {
  return refuse(ErrorCode::disk_full, "{}: it cannot be written: {}", file_.string(), std::strerror(errno));
}

Result<void> NewFile::add(std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t count = ::write(number_, bytes.data(), bytes.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return refuse_by_system();
    bytes.remove_prefix(static_cast<std::size_t>(count));
  }
  return {};
}

Result<void> NewFile::close() {
  if (::fsync(number_) != 0) return refuse_by_system();
  if (::close(std::exchange(number_, -1)) != 0) return refuse_by_system();
  return {};
}

Result<void> NewFile::keep() {
  HW_TRY(check_free(file_));
  if (::rename(fresh_.c_str(), file_.c_str()) != 0) return refuse_by_system();
  fresh_.clear();
  return settle_folder(folder_of(file_));
}

Result<void> settle_folder(const fs::path& folder) {
  const int number = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  const bool is_settled = number >= 0 && ::fsync(number) == 0;
  const int why = errno;
  if (number >= 0) ::close(number);
  if (is_settled) return {};
  return refuse(ErrorCode::disk_full, "{}: it cannot be written: {}", folder.string(), std::strerror(why));
}

}  // namespace hw::formats
