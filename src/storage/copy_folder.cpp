#include "src/storage/copy_folder.h"

#include <algorithm>
#include <vector>

#include "src/copies/copy_name.h"
#include "src/storage/copy_file.h"
#include "src/storage/copying.h"

namespace hw::storage {
namespace {

namespace fs = std::filesystem;

Result<std::vector<Instant>> nightly_copies(const fs::path& folder) {
  std::error_code error;
  std::vector<Instant> found;
  for (const auto& one : fs::directory_iterator(folder, error)) {
    std::error_code unreadable;
    const auto made_at = copies::parse_copy_name(one.path().filename().string());
    if (made_at && one.is_regular_file(unreadable)) found.push_back(*made_at);
  }
  if (!error) return found;
  return refuse(ErrorCode::not_found, "{}: the folder for copies does not read: {}", folder.string(), error.message());
}

// Written or unpacked by a copy that was killed: ".hourwright-2026-11-26T020000Z.copy.4711", and with more of the kind
// before and behind it. Only one process has the shop, so none is being made now.
bool is_left_over(const std::string& name) {
  const auto begin = name.find_first_not_of('.');
  const std::size_t length = copies::copy_name({}).size();
  return begin != 0 && begin != std::string::npos && name.size() > begin + length && name[begin + length] == '.' &&
         copies::parse_copy_name(std::string_view(name).substr(begin, length)).has_value();
}

void remove_left_over(const fs::path& folder) {
  std::error_code error;
  std::vector<fs::path> found;
  for (const auto& one : fs::directory_iterator(folder, error)) {
    if (is_left_over(one.path().filename().string())) found.push_back(one.path());
  }
  for (const fs::path& one : found) fs::remove_all(one, error);
}

}  // namespace

Result<std::optional<copies::GoodCopy>> newest_good(const CopyFolder& folder) {
  HW_TAKE(there, nightly_copies(folder.copies));
  std::sort(there.begin(), there.end(), std::greater<>());
  for (const Instant made_at : there) {
    const fs::path file = folder.copies / copies::copy_name(made_at);
    const auto head = read_copy_head(file);
    std::error_code error;
    if (head && head->breaks == 0) return std::optional{copies::GoodCopy{made_at, fs::file_size(file, error)}};
  }
  return std::optional<copies::GoodCopy>{};
}

Result<copies::GoodCopy> keep_nightly(const CopyFolder& folder, Instant now) {
  HW_TRY(nightly_copies(folder.copies));
  remove_left_over(folder.copies);
  HW_TAKE(made, make_copy(folder.data, folder.copies / copies::copy_name(now), now));
  if (made.copy.breaks > 0) {
    return refuse(
        ErrorCode::corrupt,
        "the logbook is not as it was written ({} breaks; see hourwright logbook verify): it was copied as it "
        "is, and older copies are all kept",
        made.copy.breaks);
  }
  HW_TAKE(there, nightly_copies(folder.copies));
  std::error_code error;
  for (const Instant one : copies::unwanted(std::move(there), folder.retention, folder.zone, now)) {
    fs::remove(folder.copies / copies::copy_name(one), error);
  }
  return copies::GoodCopy{now, made.bytes};
}

}  // namespace hw::storage
