#pragma once
// A fast hash of short texts (keys, ids): eight bytes at a time, multiplied and folded. Not against an enemy: tables
// that use it are filled from the shop's own device models and bounded lists.

#include <cstdint>
#include <cstring>
#include <string_view>

namespace hw::feeds {

inline std::uint64_t fold(std::uint64_t a, std::uint64_t b) {
  __extension__ using Wide = unsigned __int128;
  const Wide product = static_cast<Wide>(a) * b;
  return static_cast<std::uint64_t>(product) ^ static_cast<std::uint64_t>(product >> 64);
}

inline std::uint64_t load_tail(const char* at, std::size_t size) {
  if (size >= 4) {
    std::uint32_t low = 0, high = 0;
    std::memcpy(&low, at, 4);
    std::memcpy(&high, at + size - 4, 4);
    return (std::uint64_t{high} << 32) | low;
  }
  if (size == 0) return 0;
  const auto byte = [at](std::size_t i) { return std::uint64_t{static_cast<unsigned char>(at[i])}; };
  return (byte(0) << 16) | (byte(size / 2) << 8) | byte(size - 1);
}

inline std::uint64_t hash_text(std::string_view text) {
  constexpr std::uint64_t odd_a = 0x9e37'79b9'7f4a'7c15, odd_b = 0xd6e8'feb8'6659'fd93;
  std::uint64_t hash = odd_a ^ text.size();
  const char* at = text.data();
  std::size_t left = text.size();
  for (; left > 8; left -= 8, at += 8) {
    std::uint64_t eight = 0;
    std::memcpy(&eight, at, 8);
    hash = fold(hash ^ eight, odd_b);
  }
  return fold(hash ^ load_tail(at, left), odd_b);
}

}  // namespace hw::feeds
