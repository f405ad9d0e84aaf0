#include "libs/power/disk.h"

#include <utility>

#include "libs/values/assert.h"

namespace hw::power {

std::string_view print(Access access) {
  constexpr std::array<std::string_view, accesses.size()> words{"open", "read", "write", "truncate", "sync"};
  return words.at(static_cast<std::size_t>(access));
}

Disk::Disk(const Image& image) {
  for (const auto& [name, bytes] : image) {
    files_[name] = std::make_shared<File>(File{++files_made_, bytes});
  }
}

std::shared_ptr<File> Disk::open(const std::string& name, bool makes) {
  if (const auto there = files_.find(name); there != files_.end()) return there->second;
  if (!makes) return nullptr;
  auto file = std::make_shared<File>(File{++files_made_, {}});
  note({.kind = Operation::Kind::make, .file = file->number, .name = name});
  return files_[name] = file;
}

void Disk::remove(const std::string& name) {
  const auto there = files_.find(name);
  HW_ASSERT(there != files_.end(), "only a file that is there is removed");
  note({.kind = Operation::Kind::remove, .file = there->second->number});
  files_.erase(there);
}

void Disk::write(File& file, std::size_t offset, std::string_view bytes) {
  if (file.bytes.size() < offset + bytes.size()) file.bytes.resize(offset + bytes.size());
  file.bytes.replace(offset, bytes.size(), bytes);
  if (file.number == 0) return;
  note({.kind = Operation::Kind::write, .file = file.number, .offset = offset, .bytes = std::string(bytes)});
}

void Disk::truncate(File& file, std::size_t length) {
  file.bytes.resize(length);
  if (file.number != 0) note({.kind = Operation::Kind::truncate, .file = file.number, .offset = length});
}

void Disk::sync(const File& file) {
  if (file.number != 0) note({.kind = Operation::Kind::sync, .file = file.number});
}

void Disk::sync_folder() { note({.kind = Operation::Kind::sync_folder}); }

Image Disk::image() const {
  Image image;
  for (const auto& [name, file] : files_) image[name] = file->bytes;
  return image;
}

void Disk::begin_record() {
  files_made_ = 0;
  for (auto& [name, file] : files_) file->number = ++files_made_;
  record_.clear();
  is_recording_ = true;
}

void Disk::fail(std::optional<Fault> fault) {
  fault_ = fault;
  met_ = {};
  has_failed_ = false;
}

std::optional<Failure> Disk::meet(Access access) {
  const int number = ++met_[static_cast<std::size_t>(access)];
  if (!fault_ || fault_->access != access) return std::nullopt;
  const bool fails = fault_->failing == Failing::once ? number == fault_->number : number >= fault_->number;
  if (!fails) return std::nullopt;
  has_failed_ = true;
  return fault_->failure;
}

void Disk::note(Operation operation) {
  if (is_recording_) record_.push_back(std::move(operation));
}

}  // namespace hw::power
