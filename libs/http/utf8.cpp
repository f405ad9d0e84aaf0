#include "libs/http/utf8.h"

namespace hw::http {
namespace {

struct Lead {
  unsigned first, last;  // lead bytes
  unsigned low, high;    // what the second byte may be
  std::size_t length;
};

// RFC 3629 section 4, the grammar's lines in order.
constexpr Lead leads[] = {
    {0x00, 0x7F, 0, 0, 1},       {0xC2, 0xDF, 0x80, 0xBF, 2}, {0xE0, 0xE0, 0xA0, 0xBF, 3},
    {0xE1, 0xEC, 0x80, 0xBF, 3}, {0xED, 0xED, 0x80, 0x9F, 3}, {0xEE, 0xEF, 0x80, 0xBF, 3},
    {0xF0, 0xF0, 0x90, 0xBF, 4}, {0xF1, 0xF3, 0x80, 0xBF, 4}, {0xF4, 0xF4, 0x80, 0x8F, 4},
};

unsigned byte_at(std::string_view text, std::size_t at) { return static_cast<unsigned char>(text[at]); }

bool tail_fits(std::string_view text, const Lead& lead) {
  if (text.size() < lead.length) return false;
  if (lead.length > 1 && (byte_at(text, 1) < lead.low || byte_at(text, 1) > lead.high)) return false;
  for (std::size_t i = 2; i < lead.length; ++i) {
    if ((byte_at(text, i) & 0xC0U) != 0x80U) return false;
  }
  return true;
}

}  // namespace

std::size_t utf8_length(std::string_view text) {
  if (text.empty()) return 0;
  for (const Lead& lead : leads) {
    if (byte_at(text, 0) >= lead.first && byte_at(text, 0) <= lead.last) return tail_fits(text, lead) ? lead.length : 0;
  }
  return 0;
}

bool is_utf8(std::string_view text) {
  while (!text.empty()) {
    const std::size_t length = utf8_length(text);
    if (length == 0) return false;
    text.remove_prefix(length);
  }
  return true;
}

}  // namespace hw::http
