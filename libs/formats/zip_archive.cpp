#include "libs/formats/zip_archive.h"

#include <new>

#include <zip.h>

#include "libs/values/assert.h"

namespace hw::formats {
namespace {

constexpr std::string_view damaged = "it is damaged or cut off; save it again";

struct CloseFile {
  void operator()(zip_file_t* file) const { zip_fclose(file); }
};
using OpenFile = std::unique_ptr<zip_file_t, CloseFile>;

// No fault of the archive's.
void throw_where_memory_ran_out(zip_error_t* error) {
  if (zip_error_code_zip(error) == ZIP_ER_MEMORY) throw std::bad_alloc();
}

}  // namespace

class ZipArchive::File : public ByteSource {
 public:
  File(OpenFile file, std::string name, Budget& budget)
      : file_(std::move(file)), name_(std::move(name)), budget_(budget) {}

  Result<std::size_t> read(std::span<char> into) override {
    HW_ASSERT(!into.empty(), "there is room to read into");
    const zip_int64_t got = zip_fread(file_.get(), into.data(), into.size());
    if (got < 0) throw_where_memory_ran_out(zip_file_get_error(file_.get()));
    if (got < 0) return refuse(ErrorCode::bad_input, "{}: {}", name_, damaged);
    const auto bytes = static_cast<std::uint64_t>(got);
    if (bytes > budget_.bytes_left) {
      return refuse(ErrorCode::too_large, "{}: it unpacks to more than a sheet can be", name_);
    }
    budget_.bytes_left -= bytes;
    return static_cast<std::size_t>(bytes);
  }
  const std::string& name() const override { return name_; }

 private:
  OpenFile file_;
  std::string name_;
  Budget& budget_;
};

void ZipArchive::Close::operator()(::zip* archive) const { zip_discard(archive); }

ZipArchive::ZipArchive(std::unique_ptr<::zip, Close> archive, std::uint64_t unpacked_bytes_max)
    : archive_(std::move(archive)), budget_(std::make_unique<Budget>(Budget{unpacked_bytes_max})) {}

Result<ZipArchive> ZipArchive::open(std::string_view bytes, std::uint64_t unpacked_bytes_max) {
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, nullptr);
  if (source == nullptr) throw std::bad_alloc();
  zip_error_t error;
  zip_error_init(&error);
  zip_t* archive = zip_open_from_source(source, ZIP_RDONLY | ZIP_CHECKCONS, &error);
  if (archive == nullptr) {
    zip_source_free(source);
    throw_where_memory_ran_out(&error);
    return refuse(ErrorCode::bad_input, "{}", damaged);
  }
  return ZipArchive(std::unique_ptr<::zip, Close>(archive), unpacked_bytes_max);
}

bool ZipArchive::has(const std::string& name) const {
  return zip_name_locate(archive_.get(), name.c_str(), ZIP_FL_NOCASE) >= 0;
}

Result<std::unique_ptr<ByteSource>> ZipArchive::file(const std::string& name) const {
  const zip_int64_t index = zip_name_locate(archive_.get(), name.c_str(), ZIP_FL_NOCASE);
  if (index < 0) return refuse(ErrorCode::not_found, "{}: the archive has no such file", name);
  OpenFile file(zip_fopen_index(archive_.get(), static_cast<zip_uint64_t>(index), 0));
  if (file) return std::make_unique<File>(std::move(file), name, *budget_);
  throw_where_memory_ran_out(zip_get_error(archive_.get()));
  const int code = zip_error_code_zip(zip_get_error(archive_.get()));
  if (code == ZIP_ER_NOPASSWD || code == ZIP_ER_ENCRNOTSUPP) {
    return refuse(ErrorCode::bad_input, "{}: it has a password; save it without one", name);
  }
  return refuse(ErrorCode::bad_input, "{}: {}", name, damaged);
}

}  // namespace hw::formats
