#pragma once
// A folder of its own for a test, gone with it. For tests only.

#include <cstdlib>
#include <filesystem>
#include <string>

#include "libs/values/assert.h"

namespace hw::sql {

class TestFolder {
 public:
  TestFolder() {
    std::string form = (std::filesystem::temp_directory_path() / "hw_sql_XXXXXX").string();
    HW_ASSERT(::mkdtemp(form.data()) != nullptr, "a temporary folder can be made");
    path_ = form;
  }
  TestFolder(const TestFolder&) = delete;
  ~TestFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace hw::sql
