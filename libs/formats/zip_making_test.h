#pragma once
// Archives as libzip writes them. For tests only.

#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <zip.h>

namespace hw::formats {

using ZipFiles = std::vector<std::pair<std::string, std::string>>;  // name and text

// An archive of such files, made by libzip; with a password where one is said.
inline std::string zip_of(const ZipFiles& files, const char* password = nullptr) {
  zip_source_t* bytes = zip_source_buffer_create(nullptr, 0, 0, nullptr);
  zip_source_keep(bytes);
  zip_t* made = zip_open_from_source(bytes, ZIP_TRUNCATE, nullptr);
  for (const auto& [name, text] : files) {
    zip_source_t* file = zip_source_buffer(made, text.data(), text.size(), 0);
    const auto index = static_cast<zip_uint64_t>(zip_file_add(made, name.c_str(), file, 0));
    if (password != nullptr) zip_file_set_encryption(made, index, ZIP_EM_AES_256, password);
  }
  EXPECT_EQ(zip_close(made), 0);
  zip_source_open(bytes);
  zip_stat_t stat;
  zip_source_stat(bytes, &stat);
  std::string out(stat.size, '\0');
  zip_source_read(bytes, out.data(), out.size());
  zip_source_close(bytes);
  zip_source_free(bytes);
  return out;
}

}  // namespace hw::formats
