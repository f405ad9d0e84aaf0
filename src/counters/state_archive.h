#pragma once
// State to bytes and back, by one description for both: archive(a, state) names the parts, and `a` either writes or
// reads them.
//
//   number   zigzag varint: 7 bits a byte, the lowest first, the top bit says that more come
//   time     number, the difference to the time before it in the record
//   real     number of its 64 bits, bytes turned round (small whole numbers end in zeros)
//   flag     one byte, 0 or 1

#include <bit>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "libs/values/instant.h"

namespace hw::counters {

class StateWriter {
 public:
  static constexpr bool reads = false;

  template <class T>
  void number(T& value) {
    put_zigzag(static_cast<std::int64_t>(value));
  }
  void time(Instant& value);
  void real(double& value) { put(__builtin_bswap64(std::bit_cast<std::uint64_t>(value))); }
  void flag(bool& value) { bytes_.push_back(value ? 1 : 0); }

  std::string& bytes() { return bytes_; }

 private:
  void put(std::uint64_t value);
  void put_zigzag(std::int64_t value) {
    put((static_cast<std::uint64_t>(value) << 1) ^ static_cast<std::uint64_t>(value >> 63));
  }

  std::string bytes_;
  std::int64_t time_before_ = 0;
};

// After bytes that do not fit it goes on with zeros; is_whole() tells.
class StateReader {
 public:
  static constexpr bool reads = true;

  explicit StateReader(std::string_view bytes) : left_(bytes) {}

  template <class T>
  void number(T& value) {
    value = static_cast<T>(take_zigzag());
  }
  void time(Instant& value);
  void real(double& value) { value = std::bit_cast<double>(__builtin_bswap64(take())); }
  void flag(bool& value);

  bool is_good() const { return is_good_; }
  bool is_whole() const { return is_good_ && left_.empty(); }
  // A count of things of at least one byte each.
  std::size_t count();

 private:
  std::uint64_t take();
  std::int64_t take_zigzag() {
    const std::uint64_t value = take();
    return static_cast<std::int64_t>(value >> 1) ^ -static_cast<std::int64_t>(value & 1);
  }

  std::string_view left_;
  std::int64_t time_before_ = 0;
  bool is_good_ = true;
};

// How many there are, then each by `part(archive, element)`.
template <class Archive, class T, class Part>
void archive_list(Archive& archive, std::vector<T>& list, Part part) {
  if constexpr (Archive::reads) {
    list.assign(archive.count(), T{});
  } else {
    std::size_t count = list.size();
    archive.number(count);
  }
  for (T& element : list) part(archive, element);
}

template <class Archive, class T, class Part>
void archive_optional(Archive& archive, std::optional<T>& value, Part part) {
  bool has = value.has_value();
  archive.flag(has);
  if (!has) {
    value.reset();
    return;
  }
  if constexpr (Archive::reads) value.emplace();
  part(archive, *value);
}

// FNV-1a, 64 bits: against damage, not against an enemy.
std::uint64_t checksum_of(std::string_view bytes);

}  // namespace hw::counters
