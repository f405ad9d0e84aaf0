#include "src/feeds/time_reader.h"

#include <cstring>

namespace hw::feeds {
namespace {

constexpr std::size_t minute_size = 17;

unsigned digit_at(const char* at) { return static_cast<unsigned char>(*at) - unsigned{'0'}; }

}  // namespace

// "27.932360Z" behind the minute: two digits, a fraction of up to nine, Z or nothing. False: not of this plain form.
bool TimeReader::read_seconds(std::string_view text, Instant& out) const {
  const char* at = text.data() + minute_size;
  const char* const end = text.data() + text.size();
  if (end - at < 2) return false;
  const unsigned tens = digit_at(at), ones = digit_at(at + 1);
  if (tens > 5 || ones > 9) return false;
  at += 2;
  std::int64_t fraction = 0, unit = 1'000'000'000;
  if (at != end && *at == '.') {
    const char* const first = ++at;
    for (; at != end && digit_at(at) <= 9 && unit > 1; ++at) {
      fraction = fraction * 10 + digit_at(at);
      unit /= 10;
    }
    if (at == first) return false;
  }
  if (at != end && *at == 'Z') ++at;
  if (at != end) return false;
  out.ns = minute_.ns + (tens * 10 + ones) * std::int64_t{1'000'000'000} + fraction * unit;
  return true;
}

bool TimeReader::read_anew(std::string_view text, Instant& out) {
  if (!read_instant(text, out)) return false;
  Instant minute;
  char whole[minute_size + 3];
  if (text.size() < minute_size) return true;
  std::memcpy(whole, text.data(), minute_size);
  std::memcpy(whole + minute_size, "00Z", 3);
  if (!read_instant({whole, sizeof whole}, minute)) return true;
  std::memcpy(minute_text_, text.data(), minute_size);
  minute_ = minute;
  return true;
}

bool TimeReader::read(std::string_view text, Instant& out) {
  if (text.size() > minute_size && std::memcmp(text.data(), minute_text_, minute_size) == 0 &&
      read_seconds(text, out)) {
    return true;
  }
  return read_anew(text, out);
}

}  // namespace hw::feeds
