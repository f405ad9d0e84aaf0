#include "libs/values/instant.h"

#include <chrono>

#include "libs/values/local_date.h"

namespace hw {
namespace {

constexpr std::int64_t ns_per_second = 1'000'000'000;
constexpr int year_first = 1678;
constexpr int year_last = 2261;

// A cursor over the text; every step says whether it found what it wanted.
struct Cursor {
  std::string_view text;
  std::size_t at = 0;

  bool done() const { return at == text.size(); }
  bool take(char c) {
    if (done() || text[at] != c) return false;
    ++at;
    return true;
  }
  bool digits(int count, int& out) {
    if (text.size() - at < static_cast<std::size_t>(count)) return false;
    out = 0;
    for (int i = 0; i < count; ++i) {
      const unsigned digit = static_cast<unsigned char>(text[at]) - unsigned{'0'};
      if (digit > 9) return false;
      out = out * 10 + static_cast<int>(digit);
      ++at;
    }
    return true;
  }
};

bool read_date(Cursor& cursor, std::int64_t& days) {
  int year = 0, month = 0, day = 0;
  if (!cursor.digits(4, year) || !cursor.take('-') || !cursor.digits(2, month) || !cursor.take('-') ||
      !cursor.digits(2, day)) {
    return false;
  }
  const std::chrono::year_month_day date{std::chrono::year{year}, std::chrono::month{static_cast<unsigned>(month)},
                                         std::chrono::day{static_cast<unsigned>(day)}};
  if (!date.ok() || year < year_first || year > year_last) return false;
  days = std::chrono::sys_days{date}.time_since_epoch().count();
  return true;
}

bool read_clock(Cursor& cursor, std::int64_t& seconds) {
  int hour = 0, minute = 0, second = 0;
  if (!cursor.digits(2, hour) || !cursor.take(':') || !cursor.digits(2, minute) || !cursor.take(':') ||
      !cursor.digits(2, second)) {
    return false;
  }
  if (hour > 23 || minute > 59 || second > 60) return false;
  seconds = hour * 3600 + minute * 60 + second;
  return true;
}

bool read_fraction(Cursor& cursor, std::int64_t& ns) {
  ns = 0;
  if (!cursor.take('.') && !cursor.take(',')) return true;
  const std::size_t first = cursor.at;
  std::int64_t unit = ns_per_second;
  while (!cursor.done() && cursor.text[cursor.at] >= '0' && cursor.text[cursor.at] <= '9') {
    unit /= 10;
    ns += unit * (cursor.text[cursor.at] - '0');
    ++cursor.at;
  }
  return cursor.at > first;
}

bool read_zone(Cursor& cursor, std::int64_t& offset_seconds) {
  offset_seconds = 0;
  if (cursor.done() || cursor.take('Z') || cursor.take('z')) return true;
  const bool east = cursor.take('+');
  if (!east && !cursor.take('-')) return false;
  int hours = 0, minutes = 0;
  if (!cursor.digits(2, hours)) return false;
  cursor.take(':');
  if (!cursor.done() && !cursor.digits(2, minutes)) return false;
  if (hours > 14 || minutes > 59) return false;
  offset_seconds = (hours * 3600 + minutes * 60) * (east ? 1 : -1);
  return true;
}

}  // namespace

Instant now() {
  const auto since = std::chrono::system_clock::now().time_since_epoch();
  return {std::chrono::duration_cast<std::chrono::nanoseconds>(since).count()};
}

bool read_instant(std::string_view text, Instant& out) {
  Cursor cursor{text};
  std::int64_t days = 0, seconds = 0, ns = 0, offset = 0;
  if (!read_date(cursor, days) || !(cursor.take('T') || cursor.take('t') || cursor.take(' '))) return false;
  if (!read_clock(cursor, seconds) || !read_fraction(cursor, ns) || !read_zone(cursor, offset)) return false;
  if (!cursor.done()) return false;
  out.ns = (days * 86'400 + seconds - offset) * ns_per_second + ns;
  return true;
}

Result<Instant> parse_instant(std::string_view text) {
  Instant out;
  if (read_instant(text, out)) return out;
  return refuse(ErrorCode::bad_input, "\"{}\" is no time; a time looks like 2026-03-02T06:30:00Z", text.substr(0, 60));
}

namespace {

// ".020703" for 20,703,000 ns; nothing for 0.
std::string print_fraction(std::int64_t ns) {
  if (ns == 0) return "";
  std::string digits = fmt::format(".{:09}", ns);
  digits.erase(digits.find_last_not_of('0') + 1);
  return digits;
}

}  // namespace

std::string print(Instant instant) {
  std::int64_t seconds = instant.ns / ns_per_second;
  std::int64_t ns = instant.ns % ns_per_second;
  if (ns < 0) {
    ns += ns_per_second;
    --seconds;
  }
  std::int64_t days = seconds / 86'400;
  std::int64_t of_day = seconds % 86'400;
  if (of_day < 0) {
    of_day += 86'400;
    --days;
  }
  return fmt::format("{}T{:02}:{:02}:{:02}{}Z", print(LocalDate{static_cast<std::int32_t>(days)}), of_day / 3600,
                     of_day / 60 % 60, of_day % 60, print_fraction(ns));
}

std::string print_seconds(Duration duration) {
  const bool negative = duration.ns < 0;
  const std::uint64_t ns =
      negative ? 0 - static_cast<std::uint64_t>(duration.ns) : static_cast<std::uint64_t>(duration.ns);
  return fmt::format("{}{}{}", negative ? "-" : "", ns / ns_per_second,
                     print_fraction(static_cast<std::int64_t>(ns % ns_per_second)));
}

}  // namespace hw
