#pragma once
// A file that is there whole or not at all, whatever breaks off the writing, and readable by its owner only: it is
// written beside its place under a name of its own, and takes its place when it is on disk.

#include <filesystem>
#include <string_view>

#include "libs/values/result.h"

namespace hw::formats {

class NewFile {
 public:
  // Refuses: conflict (the file is there), not_found (its folder is not), disk_full.
  static Result<NewFile> begin(const std::filesystem::path& file);
  NewFile(NewFile&& other) noexcept;
  NewFile& operator=(NewFile&&) = delete;
  ~NewFile();  // what has not taken its place is removed

  // Refuses (disk_full) what the file system refuses.
  Result<void> add(std::string_view bytes);
  // What was added is on disk when it returns. Refuses as add() does.
  Result<void> close();
  // Where the file is until it takes its place.
  const std::filesystem::path& path() const { return fresh_; }
  // Takes its place, on disk when it returns; after close(). Refuses: conflict (a file is there by now), disk_full.
  Result<void> keep();

 private:
  NewFile(std::filesystem::path file, std::filesystem::path fresh, int number)
      : file_(std::move(file)), fresh_(std::move(fresh)), number_(number) {}
  tl::unexpected<Error> refuse_by_system() const;

  std::filesystem::path file_;
  std::filesystem::path fresh_;  // empty: it has taken its place
  int number_ = -1;              // -1: closed
};

// What was changed in the folder is on disk when it returns. Refuses (disk_full) what the file system refuses.
Result<void> settle_folder(const std::filesystem::path& folder);

}  // namespace hw::formats
