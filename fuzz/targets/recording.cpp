// A recorded response has the same parts whether it is read whole or in pieces.

#include "libs/http/recording.h"

#include "fuzz/pieces.h"
#include "fuzz/targets.h"
#include "libs/values/assert.h"

namespace hw::fuzz {
namespace {

struct RecordedParts : http::PartSink {
  Result<void> begin(const http::Headers&) override { return {}; }
  Result<void> data(std::string_view piece) override {
    told += piece;
    return {};
  }
  Result<void> end() override {
    told += "\n[end]\n";
    return {};
  }
  std::string told;
};

std::string recorded(std::string_view file, Cut cut) {
  RecordedParts parts;
  http::RecordingReader reader(parts);
  Result<void> outcome;
  feed_cut(file, cut, [&](std::string_view piece) { return (outcome = reader.feed(piece)).has_value(); });
  if (outcome) outcome = reader.finish();
  return outcome ? parts.told : "refused";
}

}  // namespace

void recording(std::string_view input) {
  HW_ASSERT(recorded(input, Cut::whole) == recorded(input, Cut::in_pieces), "pieces make no difference");
}

}  // namespace hw::fuzz
