#include "src/counters/state_archive.h"

namespace hw::counters {

void StateWriter::put(std::uint64_t value) {
  for (; value >= 0x80; value >>= 7) bytes_.push_back(static_cast<char>(value | 0x80));
  bytes_.push_back(static_cast<char>(value));
}

// Differences are taken modulo 2^64, so that no two times are too far apart.
void StateWriter::time(Instant& value) {
  put_zigzag(
      static_cast<std::int64_t>(static_cast<std::uint64_t>(value.ns) - static_cast<std::uint64_t>(time_before_)));
  time_before_ = value.ns;
}

std::uint64_t StateReader::take() {
  std::uint64_t value = 0;
  for (unsigned shift = 0; shift < 64; shift += 7) {
    if (left_.empty()) break;
    const auto byte = static_cast<std::uint8_t>(left_.front());
    left_.remove_prefix(1);
    value |= std::uint64_t{byte & 0x7fU} << shift;
    if (byte < 0x80) return value;
  }
  is_good_ = false;
  return 0;
}

void StateReader::time(Instant& value) {
  const auto difference = static_cast<std::uint64_t>(take_zigzag());
  time_before_ = static_cast<std::int64_t>(static_cast<std::uint64_t>(time_before_) + difference);
  value.ns = time_before_;
}

void StateReader::flag(bool& value) {
  const std::uint64_t byte = take();
  is_good_ = byte <= 1 && is_good_;
  value = byte == 1;
}

std::size_t StateReader::count() {
  const std::int64_t count = take_zigzag();
  if (count >= 0 && static_cast<std::uint64_t>(count) <= left_.size()) return static_cast<std::size_t>(count);
  is_good_ = false;
  return 0;
}

std::uint64_t checksum_of(std::string_view bytes) {
  std::uint64_t hash = 0xcbf2'9ce4'8422'2325;
  for (const char byte : bytes) hash = (hash ^ static_cast<std::uint8_t>(byte)) * 0x0000'0100'0000'01b3;
  return hash;
}

}  // namespace hw::counters
