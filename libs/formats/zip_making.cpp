#include "libs/formats/zip_making.h"

#include <memory>

#include <zip.h>

#include "libs/values/assert.h"

namespace hw::formats {
namespace {

struct FreeSource {
  void operator()(zip_source_t* source) const { zip_source_free(source); }
};
using SourceHandle = std::unique_ptr<zip_source_t, FreeSource>;

// The archive's bytes, after it was closed.
std::string bytes_in(zip_source_t* source) {
  zip_stat_t about;
  HW_ASSERT(zip_source_open(source) == 0 && zip_source_stat(source, &about) == 0, "an archive in memory reads");
  std::string bytes(about.size, '\0');
  const zip_int64_t got = zip_source_read(source, bytes.data(), bytes.size());
  HW_ASSERT(got == static_cast<zip_int64_t>(bytes.size()), "an archive in memory reads whole");
  zip_source_close(source);
  return bytes;
}

}  // namespace

Result<std::string> make_zip(const std::vector<ZipText>& texts) {
  const SourceHandle memory{zip_source_buffer_create(nullptr, 0, 0, nullptr)};
  HW_ASSERT(memory != nullptr, "there is memory for an archive");
  zip_source_keep(memory.get());  // closing the archive lets go of it once
  zip_t* archive = zip_open_from_source(memory.get(), ZIP_TRUNCATE, nullptr);
  HW_ASSERT(archive != nullptr, "an archive in memory opens");
  for (const ZipText& one : texts) {
    zip_source_t* text = zip_source_buffer(archive, one.text.data(), one.text.size(), 0);
    if (zip_file_add(archive, one.name.c_str(), text, ZIP_FL_ENC_UTF_8) >= 0) continue;
    zip_source_free(text);
    zip_discard(archive);
    return refuse(ErrorCode::bad_input, "{}: two files of this name in one archive", one.name);
  }
  HW_ASSERT(zip_close(archive) == 0, "an archive in memory closes");
  return bytes_in(memory.get());
}

}  // namespace hw::formats
