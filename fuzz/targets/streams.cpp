// A document says the same whether it comes whole or in pieces, and what it says counts no faster than time.

#include <fmt/format.h>

#include "fuzz/lathe.h"
#include "fuzz/pieces.h"
#include "fuzz/targets.h"
#include "libs/values/assert.h"
#include "src/feeds/streams_reader.h"

namespace hw::fuzz {
namespace {

struct HeardStreams : feeds::StreamsSink {
  Result<void> header(const feeds::StreamsHeader& header) override {
    told += fmt::format("header {} {}\n", header.instance_id, header.next_sequence);
    return {};
  }
  void observation(const feeds::Arrival& one) override {
    HW_ASSERT(one.machine == 0 && one.item < lathe()[0].items.size(), "an observation is of a known item");
    told += fmt::format("{} {} {} {} {}\n", one.at.ns, one.sequence, one.item, one.value, one.reset);
    observations.push_back(one.observation());
  }
  void odd_word(std::uint32_t, std::uint32_t item, std::string_view word) override {
    told += fmt::format("odd {} {}\n", item, word);
  }
  void unknown_item(std::string_view device, std::string_view id) override {
    told += fmt::format("unknown {} {}\n", device, id);
  }
  std::string told;
  std::vector<counters::Observation> observations;
};

HeardStreams heard(std::string_view document, Cut cut) {
  static const feeds::ItemIndex index(lathe());
  static const feeds::Vocabulary words;
  HeardStreams out;
  feeds::StreamsReader reader(index, words, out, "document");
  Result<void> outcome;
  feed_cut(document, cut, [&](std::string_view piece) { return (outcome = reader.feed(piece)).has_value(); });
  if (outcome) outcome = reader.finish();
  // Where a refused document is refused may lie a piece further on, and with it how much was heard before.
  if (!outcome) out.told = "refused";
  return out;
}

}  // namespace

void streams(std::string_view input) {
  const HeardStreams whole = heard(input, Cut::whole);
  HW_ASSERT(heard(input, Cut::in_pieces).told == whole.told, "pieces make no difference");
  expect_no_more_than_time(counted(lathe()[0], whole.observations), count_end);
}

}  // namespace hw::fuzz
