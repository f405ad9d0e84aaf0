#pragma once
// Reads one MTConnectStreams document (1.0 to 2.x), in pieces as they come, into arrivals. Order is the document's, by
// component and type: whoever needs the order of sequence sorts by it.

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "libs/formats/byte_source.h"
#include "libs/values/result.h"
#include "src/feeds/agent_error.h"
#include "src/feeds/delivery.h"

namespace hw::feeds {

struct StreamsHeader {
  std::uint64_t instance_id = 0;
  std::uint64_t first_sequence = 0;
  std::uint64_t last_sequence = 0;
  std::uint64_t next_sequence = 0;
  std::uint64_t buffer_size = 0;
  std::string version;
  std::string model_change_time;         // deviceModelChangeTime as it stands; empty before 1.7
  std::optional<Instant> creation_time;  // the agent's clock
};

// What the document holds as a whole, the observations that no counter uses included.
struct StreamsTally {
  std::uint64_t observations = 0;  // all elements with a dataItemId, conditions too
  std::uint64_t bad = 0;           // no time that can be read, or no dataItemId
  std::uint64_t sequence_min = 0;  // 0 where there was none
  std::uint64_t sequence_max = 0;
  std::vector<SeenTimes> seen;  // by machine
};

class StreamsSink : public ArrivalSink {
 public:
  // Once, before any observation. An Error ends the reading with it.
  virtual Result<void> header(const StreamsHeader& header) = 0;
  // A dataItemId (or, where that is empty, a device) that the models lack; each is told once.
  virtual void unknown_item(std::string_view device, std::string_view data_item_id) = 0;
};

class StreamsReader {
 public:
  // Index, words and sink outlive the reader; the name is what errors call the document.
  StreamsReader(const ItemIndex& index, const Vocabulary& words, StreamsSink& sink, std::string name);
  ~StreamsReader();
  StreamsReader(const StreamsReader&) = delete;
  StreamsReader& operator=(const StreamsReader&) = delete;

  // Errors (bad_input): not XML, a DOCTYPE, another kind of document, a header without instanceId or nextSequence; the
  // message names the line. An MTConnectError document is an Error too, and agent_error() then says which.
  Result<void> feed(std::string_view piece);
  Result<void> finish();
  // The whole source, then finish().
  Result<void> read(formats::ByteSource& source);
  // Makes ready for the next document; what was told once stays told.
  void restart(std::string name);

  const StreamsTally& tally() const;
  // What the agent said instead, where the document was an MTConnectError.
  const std::optional<AgentError>& agent_error() const;

 private:
  struct Reading;
  std::unique_ptr<Reading> reading_;
};

}  // namespace hw::feeds
