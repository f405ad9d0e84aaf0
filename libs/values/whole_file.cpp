#include "libs/values/whole_file.h"

#include <cerrno>
#include <cstring>
#include <fstream>
#include <utility>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace hw {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t bytes_max = 1024 * 1024;

class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int number() const { return number_; }

 private:
  int number_;
};

tl::unexpected<Error> refuse_by_system(const fs::path& file) {
  return refuse(ErrorCode::disk_full, "{}: it cannot be written: {}", file.string(), std::strerror(errno));
}

bool write_all(int file, std::string_view text) {
  while (!text.empty()) {
    const ssize_t count = ::write(file, text.data(), text.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return false;
    text.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

Result<void> write_new(const fs::path& file, std::string_view text, ReadableBy readers) {
  const Descriptor out{::open(file.c_str(), O_CREAT | O_TRUNC | O_WRONLY | O_CLOEXEC | O_NOFOLLOW, 0600)};
  const ::mode_t mode = readers == ReadableBy::owner ? 0600 : 0644;
  const bool is_written = out.number() >= 0 && ::fchmod(out.number(), mode) == 0 && write_all(out.number(), text) &&
                          ::fsync(out.number()) == 0;
  if (!is_written) return refuse_by_system(file);
  return {};
}

}  // namespace

Result<std::string> read_whole_file(const fs::path& file) {
  std::error_code error;
  if (!fs::is_regular_file(file, error))
    return refuse(ErrorCode::not_found, "{}: there is no such file", file.string());
  if (fs::file_size(file, error) > bytes_max) {
    return refuse(ErrorCode::too_large, "{}: it has more than 1 MiB, which no certificate has", file.string());
  }
  std::ifstream in(file, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  if (!in.is_open() || in.bad()) return refuse(ErrorCode::disk_full, "{}: it cannot be read", file.string());
  return text;
}

Result<void> write_whole_file(const fs::path& file, std::string_view text, ReadableBy readers) {
  const fs::path fresh = file.parent_path() / fmt::format(".{}.{}", file.filename().string(), ::getpid());
  auto written = write_new(fresh, text, readers);
  if (written && ::rename(fresh.c_str(), file.c_str()) != 0) written = refuse_by_system(file);
  if (!written) {
    ::unlink(fresh.c_str());
    return written;
  }
  const Descriptor folder{::open(file.parent_path().c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)};
  if (folder.number() < 0 || ::fsync(folder.number()) != 0) return refuse_by_system(file);
  return {};
}

}  // namespace hw
