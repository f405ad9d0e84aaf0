#pragma once
// A moment in UTC and a span of time, both whole nanoseconds in 64 bits (years 1678 to 2261).

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "libs/values/result.h"

namespace hw {

struct Duration {
  std::int64_t ns = 0;

  static constexpr Duration seconds(std::int64_t n) { return {n * 1'000'000'000}; }
  static constexpr Duration millis(std::int64_t n) { return {n * 1'000'000}; }
  static constexpr Duration hours(std::int64_t n) { return seconds(n * 3600); }
  constexpr double as_seconds() const { return static_cast<double>(ns) / 1e9; }
  constexpr double as_hours() const { return static_cast<double>(ns) / 3.6e12; }
  auto operator<=>(const Duration&) const = default;
};

struct Instant {
  std::int64_t ns = 0;  // since 1970-01-01T00:00:00Z

  static constexpr Instant from_millis(std::int64_t ms) { return {ms * 1'000'000}; }
  constexpr std::int64_t as_millis() const { return ns >= 0 ? ns / 1'000'000 : -((-ns + 999'999) / 1'000'000); }
  auto operator<=>(const Instant&) const = default;
};

constexpr Duration operator-(Instant a, Instant b) { return {a.ns - b.ns}; }
constexpr Instant operator+(Instant a, Duration d) { return {a.ns + d.ns}; }
constexpr Instant operator-(Instant a, Duration d) { return {a.ns - d.ns}; }
constexpr Duration operator+(Duration a, Duration b) { return {a.ns + b.ns}; }
constexpr Duration operator-(Duration a, Duration b) { return {a.ns - b.ns}; }

// The system's clock. Only programs' edges (main, servers) call it; everything that computes takes the time as an
// argument.
Instant now();

// Reads an ISO 8601 date and time, extended form: 2016-05-23T05:00:00[.fraction][Z|+hh:mm|-hh:mm]. Any number of
// fraction digits; beyond nanoseconds they are cut. No zone mark means UTC. A leap second :60 is read as the next
// minute's :00. Refuses anything else, days that do not exist, and years outside 1678..2261.
Result<Instant> parse_instant(std::string_view text);

// The same without a message, for streams of millions of lines: false where parse_instant refuses.
bool read_instant(std::string_view text, Instant& out);

// 2016-05-23T05:00:00.000Z with as many fraction digits as are needed (0 to 9).
std::string print(Instant instant);

// Seconds as an exact decimal number, as many fraction digits as are needed: 31627.020703.
std::string print_seconds(Duration duration);

}  // namespace hw
