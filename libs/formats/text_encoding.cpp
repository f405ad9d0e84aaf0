#include "libs/formats/text_encoding.h"

#include <algorithm>
#include <array>

#include "libs/formats/utf8.h"

namespace hw::formats {
namespace {

enum class ByteOrder { little, big };

// 0x80 to 0x9F of Windows-1252, after the index of the WHATWG Encoding Standard; all other bytes are their code points.
constexpr std::array<std::uint16_t, 32> windows_1252 = {0x20AC, 0x0081, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                                        0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0x008D, 0x017D, 0x008F,
                                                        0x0090, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                                        0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x009D, 0x017E, 0x0178};

std::string from_windows_1252(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 8);
  for (const char letter : bytes) {
    const auto byte = static_cast<unsigned char>(letter);
    append_utf8(text, byte >= 0x80 && byte < 0xA0 ? windows_1252[byte - 0x80u] : byte);
  }
  return text;
}

std::uint32_t unit_at(std::string_view bytes, std::size_t at, ByteOrder order) {
  const auto first = static_cast<unsigned char>(bytes[at]);
  const auto second = static_cast<unsigned char>(bytes[at + 1]);
  return order == ByteOrder::little ? first | static_cast<std::uint32_t>(second) << 8
                                    : second | static_cast<std::uint32_t>(first) << 8;
}

// A surrogate without its other half becomes U+FFFD.
Result<std::string> from_utf16(std::string_view bytes, ByteOrder order) {
  if (bytes.size() % 2 != 0) return refuse(ErrorCode::bad_input, "cut off: UTF-16 text with an odd number of bytes");
  std::string text;
  text.reserve(bytes.size());
  for (std::size_t at = 0; at < bytes.size(); at += 2) {
    std::uint32_t point = unit_at(bytes, at, order);
    if (point >= 0xD800 && point < 0xDC00 && at + 2 < bytes.size()) {
      const std::uint32_t low = unit_at(bytes, at + 2, order);
      if (low >= 0xDC00 && low < 0xE000) {
        point = 0x10000 + ((point - 0xD800) << 10) + (low - 0xDC00);
        at += 2;
      }
    }
    append_utf8(text, point);
  }
  return text;
}

// The eight bytes in which ISO-8859-15 is another than ISO-8859-1 (ISO/IEC 8859-15:1999, from memory).
std::uint32_t latin_9_point(unsigned char byte) {
  switch (byte) {
    case 0xA4:
      return 0x20AC;
    case 0xA6:
      return 0x0160;
    case 0xA8:
      return 0x0161;
    case 0xB4:
      return 0x017D;
    case 0xB8:
      return 0x017E;
    case 0xBC:
      return 0x0152;
    case 0xBD:
      return 0x0153;
    case 0xBE:
      return 0x0178;
    default:
      return byte;
  }
}

std::string from_latin_9(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 8);
  for (const char letter : bytes) append_utf8(text, latin_9_point(static_cast<unsigned char>(letter)));
  return text;
}

constexpr std::string_view utf_8_mark = "\xEF\xBB\xBF", utf_16_little_mark = "\xFF\xFE", utf_16_big_mark = "\xFE\xFF";

bool has_utf_16_mark(std::string_view bytes) {
  return bytes.starts_with(utf_16_little_mark) || bytes.starts_with(utf_16_big_mark);
}

bool begins_as_utf_16(std::string_view bytes) { return bytes.size() >= 2 && (bytes[0] == '\0') != (bytes[1] == '\0'); }

Result<std::string> decode_utf_16(std::string_view bytes) {
  const bool is_marked = has_utf_16_mark(bytes);
  const bool is_little = is_marked ? bytes.starts_with(utf_16_little_mark) : bytes[1] == '\0';
  return from_utf16(bytes.substr(is_marked ? 2 : 0), is_little ? ByteOrder::little : ByteOrder::big);
}

Result<std::string> decode(std::string_view bytes) {
  switch (encoding_of(bytes)) {
    case TextEncoding::utf_16:
      return decode_utf_16(bytes);
    case TextEncoding::windows_1252:
      return from_windows_1252(bytes);
    case TextEncoding::latin_9:
      return from_latin_9(bytes);
    case TextEncoding::utf_8:
      break;
  }
  if (!bytes.starts_with(utf_8_mark)) return std::string(bytes);
  if (!is_utf8(bytes)) return refuse(ErrorCode::bad_input, "is marked as UTF-8 and is not; save it again as UTF-8");
  return std::string(bytes.substr(utf_8_mark.size()));
}

}  // namespace

std::string_view name_of(TextEncoding encoding) {
  switch (encoding) {
    case TextEncoding::utf_8:
      return "UTF-8";
    case TextEncoding::utf_16:
      return "UTF-16";
    case TextEncoding::windows_1252:
      return "Windows-1252";
    case TextEncoding::latin_9:
      return "ISO-8859-15";
  }
  return "";
}

TextEncoding encoding_of(std::string_view bytes) {
  if (has_utf_16_mark(bytes)) return TextEncoding::utf_16;
  if (bytes.starts_with(utf_8_mark)) return TextEncoding::utf_8;
  if (begins_as_utf_16(bytes)) return TextEncoding::utf_16;
  if (is_utf8(bytes)) return TextEncoding::utf_8;
  const bool is_only_windows = std::any_of(bytes.begin(), bytes.end(), [](char letter) {
    const auto byte = static_cast<unsigned char>(letter);
    return byte >= 0x80 && byte < 0xA0;
  });
  const bool has_euro = bytes.find('\xA4') != std::string_view::npos;
  return has_euro && !is_only_windows ? TextEncoding::latin_9 : TextEncoding::windows_1252;
}

Result<std::string> to_utf8(std::string_view bytes) {
  auto text = decode(bytes);
  if (!text) return text;
  const auto zero = std::find(text->begin(), text->end(), '\0');
  if (zero == text->end()) return text;
  return refuse(ErrorCode::bad_input, "line {}: a zero character; this is no text",
                std::count(text->begin(), zero, '\n') + 1);
}

}  // namespace hw::formats
