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

Result<std::string> decode(std::string_view bytes) {
  const auto mark_is = [bytes](std::string_view mark) { return bytes.starts_with(mark); };
  if (mark_is("\xFF\xFE")) return from_utf16(bytes.substr(2), ByteOrder::little);
  if (mark_is("\xFE\xFF")) return from_utf16(bytes.substr(2), ByteOrder::big);
  if (mark_is("\xEF\xBB\xBF")) {
    if (!is_utf8(bytes)) return refuse(ErrorCode::bad_input, "is marked as UTF-8 and is not; save it again as UTF-8");
    return std::string(bytes.substr(3));
  }
  if (bytes.size() >= 2 && (bytes[0] == '\0') != (bytes[1] == '\0')) {
    return from_utf16(bytes, bytes[1] == '\0' ? ByteOrder::little : ByteOrder::big);
  }
  return is_utf8(bytes) ? std::string(bytes) : from_windows_1252(bytes);
}

}  // namespace

Result<std::string> to_utf8(std::string_view bytes) {
  auto text = decode(bytes);
  if (!text) return text;
  const auto zero = std::find(text->begin(), text->end(), '\0');
  if (zero == text->end()) return text;
  return refuse(ErrorCode::bad_input, "line {}: a zero character; this is no text",
                std::count(text->begin(), zero, '\n') + 1);
}

}  // namespace hw::formats
