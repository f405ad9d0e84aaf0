// Any lines at all: each is counted as a line, what was read is of items that there are, and counts no faster than
// time.

#include "fuzz/lathe.h"
#include "fuzz/pieces.h"
#include "fuzz/targets.h"
#include "libs/values/assert.h"
#include "src/feeds/shdr_reader.h"

namespace hw::fuzz {
namespace {

struct HeardLines : feeds::ShdrSink {
  void observation(const feeds::Arrival& arrival) override {
    HW_ASSERT(arrival.machine == 0 && arrival.item < lathe()[0].items.size(), "an observation is of a known item");
    observations.push_back(arrival.observation());
  }
  void odd_word(std::uint32_t, std::uint32_t, std::string_view) override {}
  void unknown_key(std::string_view) override {}
  void bad_line(std::uint64_t line, std::string_view why) override {
    HW_ASSERT(line > 0 && !why.empty(), "a bad line is told with its number");
  }
  std::vector<counters::Observation> observations;
};

}  // namespace

void shdr(std::string_view input) {
  static const feeds::ItemIndex index(lathe());
  static const feeds::Vocabulary words;
  HeardLines heard;
  feeds::ShdrReader reader(index, words, heard, 0);
  std::uint64_t lines = 0;
  while (!input.empty()) {
    reader.line(take_until(input, "\n"), lines % 2 == 0 ? std::optional(count_begin) : std::nullopt);
    HW_ASSERT(reader.lines() == ++lines, "every line counts as one");
  }
  expect_no_more_than_time(counted(lathe()[0], heard.observations), count_end);
}

}  // namespace hw::fuzz
