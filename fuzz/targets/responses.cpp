// An agent's answer has the same status and body whether it comes whole or in pieces.

#include <fmt/format.h>

#include "fuzz/pieces.h"
#include "fuzz/targets.h"
#include "libs/http/response_reader.h"
#include "libs/values/assert.h"

namespace hw::fuzz {
namespace {

std::string heard_response(std::string_view bytes, Cut cut) {
  std::string told;
  http::ResponseReader reader(
      [&](int status, const http::Headers& headers) -> Result<void> {
        HW_ASSERT(status >= 200 && status <= 999, "a final status has three digits");
        told += fmt::format("{}\n", status);
        for (const http::Header& header : headers) told += header.name + ": " + header.value + '\n';
        return {};
      },
      [&](std::string_view piece) -> Result<void> {
        told += piece;
        return {};
      });
  Result<void> outcome;
  feed_cut(bytes, cut, [&](std::string_view piece) {
    outcome = reader.feed(piece);
    return outcome.has_value() && !reader.done();
  });
  if (outcome && !reader.done()) outcome = reader.finish();
  return outcome ? told : "refused";
}

}  // namespace

void responses(std::string_view input) {
  HW_ASSERT(heard_response(input, Cut::whole) == heard_response(input, Cut::in_pieces), "pieces make no difference");
}

}  // namespace hw::fuzz
