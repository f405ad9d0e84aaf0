#include "libs/formats/byte_source.h"

#include <algorithm>
#include <cerrno>
#include <cstring>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "libs/values/assert.h"

namespace hw::formats {
namespace {

class FileSource : public ByteSource {
 public:
  FileSource(int file, std::string name) : file_(file), name_(std::move(name)) {}
  FileSource(const FileSource&) = delete;
  ~FileSource() override {
    if (file_ != STDIN_FILENO) ::close(file_);
  }

  Result<std::size_t> read(std::span<char> into) override {
    HW_ASSERT(!into.empty(), "there is room to read into");
    for (;;) {
      const ssize_t got = ::read(file_, into.data(), into.size());
      if (got >= 0) return static_cast<std::size_t>(got);
      if (errno == EINTR) continue;
      return refuse(ErrorCode::bad_input, "{}: cannot be read: {}", name_, std::strerror(errno));
    }
  }
  const std::string& name() const override { return name_; }

 private:
  int file_;
  std::string name_;
};

class MemorySource : public ByteSource {
 public:
  MemorySource(std::string_view bytes, std::string name) : left_(bytes), name_(std::move(name)) {}

  Result<std::size_t> read(std::span<char> into) override {
    HW_ASSERT(!into.empty(), "there is room to read into");
    const std::size_t length = std::min(left_.size(), into.size());
    std::copy_n(left_.data(), length, into.data());
    left_.remove_prefix(length);
    return length;
  }
  const std::string& name() const override { return name_; }

 private:
  std::string_view left_;
  std::string name_;
};

Result<std::unique_ptr<ByteSource>> open_packed(const std::string& path) {
  if (path == "-") return std::make_unique<FileSource>(STDIN_FILENO, "standard input");
  const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (file < 0) {
    const auto code = errno == ENOENT || errno == ENOTDIR ? ErrorCode::not_found : ErrorCode::bad_input;
    return refuse(code, "{}: cannot be opened: {}", path, std::strerror(errno));
  }
  auto source = std::make_unique<FileSource>(file, path);
  struct stat about {};
  if (::fstat(file, &about) == 0 && S_ISDIR(about.st_mode)) {
    return refuse(ErrorCode::bad_input, "{}: is a folder; name a file in it", path);
  }
  return source;
}

}  // namespace

Result<std::unique_ptr<ByteSource>> open_file(const std::string& path, std::uint64_t bytes_max) {
  auto packed = open_packed(path);
  if (!packed) return packed;
  return unpacked(std::move(*packed), bytes_max);
}

std::unique_ptr<ByteSource> memory_source(std::string_view bytes, std::string name) {
  return std::make_unique<MemorySource>(bytes, std::move(name));
}

Result<std::string> read_all(ByteSource& source, std::size_t bytes_max) {
  constexpr std::size_t step_bytes = 64 << 10;
  std::string all;
  for (;;) {
    const std::size_t before = all.size();
    all.resize(before + std::max(step_bytes, before / 2));
    const auto got = source.read({all.data() + before, all.size() - before});
    if (!got) return refuse(got.error());
    all.resize(before + *got);
    if (all.size() > bytes_max) {
      return refuse(ErrorCode::too_large, "{}: longer than {} bytes", source.name(), bytes_max);
    }
    if (*got == 0) return all;
  }
}

}  // namespace hw::formats
