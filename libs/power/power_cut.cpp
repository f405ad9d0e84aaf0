#include "libs/power/power_cut.h"

#include <algorithm>

#include "libs/values/assert.h"

namespace hw::power {
namespace {

constexpr std::size_t sector_bytes = 512;

void put(std::string& file, std::size_t offset, std::string_view bytes) {
  if (file.size() < offset + bytes.size()) file.resize(offset + bytes.size());
  file.replace(offset, bytes.size(), bytes);
}

// How much of what was not synced is likely to be there. Chance alone would hardly ever leave all of it, or nothing.
struct Mood {
  double whole, none, torn;  // the rest is garbled
};
Mood mood_of(numerics::Random& random) {
  switch (random.whole_between(0, 4)) {
    case 0:
      return {1, 0, 0};
    case 1:
      return {0, 1, 0};
    case 2:
      return {0.9, 0.04, 0.03};
    case 3:
      return {0.5, 0.4, 0.05};
    default:
      return {0.3, 0.2, 0.25};
  }
}

std::string garbled(std::string bytes, numerics::Random& random) {
  for (char& byte : bytes) byte = static_cast<char>(random.next() & 0xff);
  return bytes;
}

// Sector by sector: there, not there, or with chance bytes in it.
void put_in_part(std::string& file, const Operation& write, bool garbles, numerics::Random& random) {
  for (std::size_t at = 0; at < write.bytes.size();) {
    const std::size_t next =
        std::min((write.offset + at) / sector_bytes * sector_bytes + sector_bytes - write.offset, write.bytes.size());
    const std::string sector = write.bytes.substr(at, next - at);
    if (random.chance(0.5)) put(file, write.offset + at, sector);
    if (garbles && random.chance(0.5)) put(file, write.offset + at, garbled(sector, random));
    at = next;
  }
}

void leave(std::string& file, const Operation& operation, const Mood& mood, numerics::Random& random) {
  const double chance = random.uniform();
  if (chance < mood.none) return;
  const bool is_whole = chance < mood.none + mood.whole;
  if (operation.kind == Operation::Kind::truncate) return file.resize(operation.offset);
  if (is_whole) return put(file, operation.offset, operation.bytes);
  put_in_part(file, operation, chance >= mood.none + mood.whole + mood.torn, random);
}

void change_names(std::map<std::string, int>& names, const Operation& operation) {
  if (operation.kind == Operation::Kind::make) {
    names[operation.name] = operation.file;
  } else {
    std::erase_if(names, [&](const auto& name) { return name.second == operation.file; });
  }
}

bool is_of_folder(const Operation& operation) {
  return operation.kind == Operation::Kind::make || operation.kind == Operation::Kind::remove;
}

}  // namespace

PowerCut::PowerCut(const Image& image) {
  for (const auto& [name, bytes] : image) {
    const int number = static_cast<int>(names_.size()) + 1;
    names_[name] = number;
    files_[number].synced = bytes;
  }
}

void PowerCut::advance(const Operation& operation) {
  switch (operation.kind) {
    case Operation::Kind::make:
    case Operation::Kind::remove:
      folder_unsynced_.push_back(&operation);
      return;
    case Operation::Kind::write:
    case Operation::Kind::truncate:
      files_[operation.file].unsynced.push_back(&operation);
      return;
    case Operation::Kind::sync: {
      Kept& file = files_[operation.file];
      for (const Operation* one : file.unsynced) {
        one->kind == Operation::Kind::truncate ? file.synced.resize(one->offset)
                                               : put(file.synced, one->offset, one->bytes);
      }
      file.unsynced.clear();
      return;
    }
    case Operation::Kind::sync_folder:
      for (const Operation* one : folder_unsynced_) change_names(names_, *one);
      folder_unsynced_.clear();
      return;
  }
}

Image PowerCut::image(const Operation* under_way, std::uint64_t seed) const {
  numerics::Random random(seed);
  const Mood mood = mood_of(random);
  auto names = names_;
  auto folder = folder_unsynced_;
  if (under_way && is_of_folder(*under_way)) folder.push_back(under_way);
  for (const Operation* one : folder) {
    if (random.chance(mood.whole + (1 - mood.whole - mood.none) / 2)) change_names(names, *one);
  }
  const bool is_change = under_way && (under_way->kind == Operation::Kind::write ||  //
                                       under_way->kind == Operation::Kind::truncate);
  Image image;
  for (const auto& [name, number] : names) {
    std::string& bytes = image[name];
    const auto kept = files_.find(number);
    if (kept != files_.end()) {
      bytes = kept->second.synced;
      for (const Operation* one : kept->second.unsynced) leave(bytes, *one, mood, random);
    }
    if (is_change && under_way->file == number) leave(bytes, *under_way, mood, random);
  }
  return image;
}

}  // namespace hw::power
