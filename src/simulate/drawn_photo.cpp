#include "src/simulate/drawn_photo.h"

#include <algorithm>
#include <string_view>

namespace hw::simulate {
namespace {

std::string big_endian(std::uint32_t number) {
  return {static_cast<char>(number >> 24), static_cast<char>(number >> 16), static_cast<char>(number >> 8),
          static_cast<char>(number)};
}

// CRC-32 as PNG has it (annex D): polynomial 0xEDB88320, reflected.
std::uint32_t crc32(std::string_view bytes) {
  std::uint32_t crc = 0xffffffff;
  for (const char byte : bytes) {
    crc ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) crc = crc >> 1 ^ (crc & 1 ? 0xEDB88320u : 0u);
  }
  return ~crc;
}

// Adler-32 (RFC 1950, 8.2).
std::uint32_t adler32(std::string_view bytes) {
  std::uint32_t a = 1, b = 0;
  for (const char byte : bytes) {
    a = (a + static_cast<unsigned char>(byte)) % 65521;
    b = (b + a) % 65521;
  }
  return b << 16 | a;
}

std::string chunk(std::string_view type, std::string_view content) {
  const std::string body = std::string(type) + std::string(content);
  return big_endian(static_cast<std::uint32_t>(content.size())) + body + big_endian(crc32(body));
}

// Stored, not pressed: at most 65,535 bytes a block.
std::string zlib_stream(std::string_view bytes) {
  constexpr std::size_t block_max = 65535;
  std::string out = "\x78\x01";
  for (std::size_t at = 0; at < bytes.size(); at += block_max) {
    const std::string_view block = bytes.substr(at, block_max);
    const auto size = static_cast<unsigned>(block.size());
    const bool is_last = at + block_max >= bytes.size();
    for (const unsigned byte : {is_last ? 1u : 0u, size & 0xff, size >> 8, ~size & 0xff, ~size >> 8 & 0xff}) {
      out += static_cast<char>(byte);
    }
    out += block;
  }
  return out + big_endian(adler32(bytes));
}

// How bright a dot is: the wall gets darker to the sides; a seam, a drop below it, a puddle at the foot.
std::uint8_t brightness(int x, int y) {
  const int from_middle = std::abs(x - 80);
  const int wall = 190 - from_middle / 2;
  const bool is_seam = std::abs(y - 30 - (x % 7 == 0 ? 1 : 0)) <= 1;
  const bool is_run = y > 30 && y < 96 && from_middle <= 1 + (y - 30) / 30;
  const bool is_drop = (x - 80) * (x - 80) + (y - 74) * (y - 74) < 20;
  const bool is_puddle = from_middle * from_middle / 16 + (y - 104) * (y - 104) < 80;
  if (is_drop || is_puddle) return 45;
  if (is_run) return 80;
  return static_cast<std::uint8_t>(is_seam ? wall - 60 : wall);
}

}  // namespace

GreyPicture draw_leak() {
  GreyPicture picture{160, 120, {}};
  for (int y = 0; y < 120; ++y) {
    for (int x = 0; x < 160; ++x) picture.dots.push_back(brightness(x, y));
  }
  return picture;
}

std::string print_png(const GreyPicture& picture) {
  using namespace std::string_literals;
  std::string rows;
  for (std::size_t y = 0; y < picture.height; ++y) {
    rows += '\0';  // filter 0: none
    rows.append(reinterpret_cast<const char*>(picture.dots.data()) + y * picture.width, picture.width);
  }
  const std::string header = big_endian(picture.width) + big_endian(picture.height) + "\x08\0\0\0\0"s;  // 8 bits, grey
  return "\x89PNG\r\n\x1A\n"s + chunk("IHDR", header) + chunk("IDAT", zlib_stream(rows)) + chunk("IEND", "");
}

}  // namespace hw::simulate
