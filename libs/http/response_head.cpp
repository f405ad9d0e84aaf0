#include "libs/http/response_head.h"

#include <algorithm>
#include <chrono>

#include <fmt/format.h>

#include "libs/http/security.h"

namespace hw::http {
namespace {

constexpr const char* weekdays[] = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
constexpr const char* months[] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

std::string one_line(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }, ' ');
  return text;
}

// RFC 9110 section 8.6: these have no body, and a Content-Length would say something else.
bool has_no_length(int status) { return status / 100 == 1 || status == 204 || status == 304; }

}  // namespace

std::string print_http_date(Instant instant) {
  using namespace std::chrono;
  const sys_time<nanoseconds> time{nanoseconds(instant.ns)};
  const auto day = floor<days>(time);
  const year_month_day date(day);
  const hh_mm_ss clock(floor<seconds>(time - day));
  return fmt::format("{}, {:02} {} {:04} {:02}:{:02}:{:02} GMT", weekdays[weekday(day).c_encoding()],
                     static_cast<unsigned>(date.day()), months[static_cast<unsigned>(date.month()) - 1],
                     static_cast<int>(date.year()), clock.hours().count(), clock.minutes().count(),
                     clock.seconds().count());
}

std::string print_head(const Response& response, const Framing& framing, Instant now) {
  Headers headers = response.headers;
  headers.set("Date", print_http_date(now));
  headers.set("Connection", framing.keep_alive ? "keep-alive" : "close");
  headers.remove("Transfer-Encoding");
  headers.remove("Content-Length");
  if (framing.body_bytes && !has_no_length(response.status)) {
    headers.add("Content-Length", std::to_string(*framing.body_bytes));
  }
  if (framing.is_chunked) headers.add("Transfer-Encoding", "chunked");
  add_security_headers(headers);
  std::string text = fmt::format("HTTP/1.1 {} {}\r\n", response.status, phrase_of(response.status));
  for (const Header& header : headers) text += one_line(header.name) + ": " + one_line(header.value) + "\r\n";
  return text + "\r\n";
}

}  // namespace hw::http
