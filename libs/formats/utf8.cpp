#include "libs/formats/utf8.h"

namespace hw::formats {
namespace {

constexpr std::uint32_t first_of_length[] = {0, 0, 0x80, 0x800, 0x10000};  // shorter forms exist below

bool is_code_point(std::uint32_t number) { return number <= 0x10FFFF && (number < 0xD800 || number > 0xDFFF); }

std::size_t length_by_first_byte(unsigned char first) {
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return 2;
  if (first >= 0xE0 && first <= 0xEF) return 3;
  if (first >= 0xF0 && first <= 0xF4) return 4;
  return 0;
}

}  // namespace

std::size_t utf8_letter_bytes(std::string_view text) {
  if (text.empty()) return 0;
  const auto first = static_cast<unsigned char>(text.front());
  const std::size_t length = length_by_first_byte(first);
  if (length <= 1) return length;
  if (text.size() < length) return 0;
  std::uint32_t number = first & (0x7Fu >> length);
  for (std::size_t i = 1; i < length; ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if ((byte & 0xC0u) != 0x80u) return 0;
    number = number << 6 | (byte & 0x3Fu);
  }
  return number >= first_of_length[length] && is_code_point(number) ? length : 0;
}

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = utf8_letter_bytes(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

void append_utf8(std::string& out, std::uint32_t code_point) {
  if (!is_code_point(code_point)) code_point = 0xFFFD;
  const auto tail = [&](unsigned shift) { out += static_cast<char>(0x80u | (code_point >> shift & 0x3Fu)); };
  if (code_point < 0x80) {
    out += static_cast<char>(code_point);
  } else if (code_point < 0x800) {
    out += static_cast<char>(0xC0u | code_point >> 6);
    tail(0);
  } else if (code_point < 0x10000) {
    out += static_cast<char>(0xE0u | code_point >> 12);
    tail(6);
    tail(0);
  } else {
    out += static_cast<char>(0xF0u | code_point >> 18);
    tail(12);
    tail(6);
    tail(0);
  }
}

}  // namespace hw::formats
