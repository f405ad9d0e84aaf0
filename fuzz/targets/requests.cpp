// Whatever comes over a connection, the same requests are let in whether it comes whole or in pieces. What is let in
// has one length only, and a path that leads nowhere but down.

#include <fmt/format.h>

#include "fuzz/pieces.h"
#include "fuzz/targets.h"
#include "libs/http/request_reader.h"
#include "libs/values/assert.h"

namespace hw::fuzz {
namespace {

const http::RequestLimits small_limits_of_requests{
    .request_line_bytes_max = 128, .head_bytes_max = 512, .body_bytes_max = 256, .large_bodies = {"/large/", 512}};

void expect_one_reading(const http::Request& request) {
  const std::size_t lengths = request.headers.count("Content-Length");
  const std::size_t codings = request.headers.count("Transfer-Encoding");
  HW_ASSERT(lengths + codings <= 1, "a request has one length");
  HW_ASSERT(request.headers.count("Host") <= 1, "a request is for one host");
  HW_ASSERT((request.path + '/').find("/../") == std::string::npos, "a path has no segment that leads up");
  HW_ASSERT(request.body.size() <= 512, "a body is no larger than the limit");
  for (const http::Header& header : request.headers) {
    HW_ASSERT(header.value.find_first_of(std::string_view("\r\n\0", 3)) == std::string::npos, "a field is one line");
  }
}

// What a server would have answered, request by request, until it closes or refuses one.
std::string answered(std::string_view bytes, Cut cut) {
  std::string told;
  std::string waiting;
  auto reader = std::make_unique<http::RequestReader>(small_limits_of_requests);
  feed_cut(bytes, cut, [&](std::string_view piece) {
    waiting += piece;
    while (true) {
      const auto state = reader->feed(waiting);
      // When, and with which status, may hang on how much of it there is to see: a chunk's quoted extension that goes
      // on over its line's end is waited for, or its length is taken off the limit once more with each piece.
      if (state == http::RequestReader::State::refused) return false;
      if (state != http::RequestReader::State::done) return true;
      const bool goes_on = reader->keep_alive();
      const http::Request request = reader->take();
      expect_one_reading(request);
      told += fmt::format("{} {} [{}]\n", request.method, request.path, request.body);
      if (!goes_on || waiting.empty()) {
        reader = std::make_unique<http::RequestReader>(small_limits_of_requests);
        return goes_on;
      }
      reader = std::make_unique<http::RequestReader>(small_limits_of_requests);
    }
  });
  return told;
}

}  // namespace

void requests(std::string_view input) {
  HW_ASSERT(answered(input, Cut::whole) == answered(input, Cut::in_pieces), "pieces make no difference");
}

}  // namespace hw::fuzz
