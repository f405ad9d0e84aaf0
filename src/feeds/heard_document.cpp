#include "src/feeds/heard_document.h"

#include <algorithm>

namespace hw::feeds {
namespace {

class HearingSink : public StreamsSink {
 public:
  HearingSink(HeardDocument& heard, Remarks& remarks) : heard_(heard), remarks_(remarks) {}

  Result<void> header(const StreamsHeader& header) override {
    heard_.header = header;
    return {};
  }
  void observation(const Arrival& arrival) override { heard_.arrivals.push_back(arrival); }
  void odd_word(std::uint32_t machine, std::uint32_t item, std::string_view word) override {
    remarks_.odd_word(machine, item, word);
  }
  void unknown_item(std::string_view device, std::string_view data_item_id) override {
    heard_.unknown_items.emplace_back(device, data_item_id);
  }

 private:
  HeardDocument& heard_;
  Remarks& remarks_;
};

}  // namespace

Result<HeardDocument> hear_document(std::string_view body, const std::string& name, const ItemIndex& index,
                                    const Vocabulary& words, Remarks& remarks) {
  HeardDocument heard;
  HearingSink sink(heard, remarks);
  StreamsReader reader(index, words, sink, name);
  auto read = reader.feed(body);
  if (read) read = reader.finish();
  if (!read && !reader.agent_error()) return refuse(read.error());
  heard.tally = reader.tally();
  heard.agent_error = reader.agent_error();
  std::stable_sort(heard.arrivals.begin(), heard.arrivals.end(),
                   [](const Arrival& a, const Arrival& b) { return a.sequence < b.sequence; });
  return heard;
}

}  // namespace hw::feeds
