// The first line is the Content-Type; the body behind it has the same parts whether it comes whole or in pieces, and
// none is larger than the limit.

#include "libs/http/multipart.h"

#include "fuzz/pieces.h"
#include "fuzz/targets.h"
#include "libs/values/assert.h"

namespace hw::fuzz {
namespace {

constexpr http::MultipartLimits small_limits{.part_header_bytes_max = 256, .part_bytes_max = 1024};

struct HeardParts : http::PartSink {
  Result<void> begin(const http::Headers& headers) override {
    for (const http::Header& header : headers) told += header.name + ": " + header.value + '\n';
    size = 0;
    return {};
  }
  Result<void> data(std::string_view piece) override {
    told += piece;
    size += piece.size();
    HW_ASSERT(size <= small_limits.part_bytes_max, "a part is no larger than the limit");
    return {};
  }
  Result<void> end() override {
    told += "\n[end]\n";
    return {};
  }
  std::string told;
  std::size_t size = 0;
};

std::string heard_parts(const std::string& boundary, std::string_view body, Cut cut) {
  HeardParts parts;
  http::MultipartReader reader(boundary, parts, small_limits);
  Result<void> outcome;
  feed_cut(body, cut, [&](std::string_view piece) { return (outcome = reader.feed(piece)).has_value(); });
  if (outcome) outcome = reader.finish();
  return outcome ? parts.told : "refused";
}

}  // namespace

void multipart(std::string_view input) {
  const auto boundary = http::parse_boundary(take_until(input, "\n"));
  if (!boundary) return;
  HW_ASSERT(!boundary->empty() && boundary->size() <= 200, "a boundary has 1 to 200 characters");
  HW_ASSERT(heard_parts(*boundary, input, Cut::whole) == heard_parts(*boundary, input, Cut::in_pieces),
            "pieces make no difference");
}

}  // namespace hw::fuzz
