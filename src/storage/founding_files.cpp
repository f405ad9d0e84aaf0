#include "src/storage/founding_files.h"

#include <algorithm>
#include <fstream>
#include <sstream>

#include "src/catalogue/shop_files.h"
#include "src/catalogue/shop_workbook.h"

namespace hw::storage {
namespace {

Result<std::string> text_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::stringstream text;
  if (!in || !(text << in.rdbuf()))
    return refuse(ErrorCode::not_found, "{}: it is missing or cannot be read", file.string());
  return text.str();
}

}  // namespace

Result<FoundingFiles> read_founding_files(const std::filesystem::path& shop_file,
                                          const std::filesystem::path& library) {
  FoundingFiles files;
  HW_TAKE(shop_text, text_of(shop_file));
  const bool is_workbook = shop_file.extension() == ".xlsx";
  HW_TAKE(shop, is_workbook ? catalogue::parse_shop_workbook(shop_text, shop_file.string())
                            : catalogue::parse_shop(shop_text, shop_file.string()));
  files.shop = std::move(shop);
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator(library, error)) {
    if (entry.path().extension() != ".toml") continue;
    HW_TAKE(set_text, text_of(entry.path()));
    HW_TAKE(set, catalogue::parse_task_set(set_text, entry.path().string()));
    files.sets.push_back(std::move(set));
  }
  if (error) return refuse(ErrorCode::not_found, "{}: {}", library.string(), error.message());
  std::sort(files.sets.begin(), files.sets.end(), [](const auto& a, const auto& b) { return a.kind < b.kind; });
  return files;
}

}  // namespace hw::storage
