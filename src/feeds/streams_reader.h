#pragma once
// Reads one MTConnectStreams document (1.0 to 2.x), in pieces as they come, into arrivals. Order is the document's, by
// component and type: whoever needs the order of sequence sorts by it.

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "libs/values/result.h"
#include "src/feeds/arrival.h"
#include "src/feeds/item_index.h"
#include "src/feeds/vocabulary.h"

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
};

class StreamsSink {
 public:
  virtual ~StreamsSink() = default;
  // Once, before any observation. An Error ends the reading with it.
  virtual Result<void> header(const StreamsHeader& header) = 0;
  // An observation of an item that a counter uses (its role is not none).
  virtual void observation(const Arrival& arrival) = 0;
  // A dataItemId or a device that the models lack; each is told once a document.
  virtual void unknown_item(std::string_view device, std::string_view data_item_id) = 0;
  // A word outside the standard, or no number where one belongs.
  virtual void odd_word(std::uint32_t machine, std::uint32_t item, std::string_view word) = 0;
};

// An MTConnectError document, both forms: <Error errorCode="OUT_OF_RANGE"> and, since 2.6, <OutOfRange>.
struct AgentError {
  std::uint64_t instance_id = 0;
  std::string code;  // OUT_OF_RANGE, whatever the form
  std::string text;
};

class StreamsReader {
 public:
  // Index, words and sink outlive the reader.
  StreamsReader(const ItemIndex& index, const Vocabulary& words, StreamsSink& sink);
  ~StreamsReader();
  StreamsReader(const StreamsReader&) = delete;
  StreamsReader& operator=(const StreamsReader&) = delete;

  // Errors (bad_input): not XML, a DOCTYPE, another kind of document, a header without instanceId or nextSequence; the
  // message names the line. An MTConnectError document is an Error too, and error() then says which.
  Result<void> feed(std::string_view piece);
  Result<void> finish();
  // Makes ready for the next document; what was allocated stays.
  void restart();

  const StreamsTally& tally() const;
  const std::optional<AgentError>& error() const;

 private:
  struct Reading;
  std::unique_ptr<Reading> reading_;
};

}  // namespace hw::feeds
