#pragma once
// One streams document, read whole: for a live feed, which decides on it before anything is counted.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "src/feeds/remarks.h"
#include "src/feeds/streams_reader.h"

namespace hw::feeds {

struct HeardDocument {
  StreamsHeader header;
  StreamsTally tally;
  std::vector<Arrival> arrivals;                                   // by sequence
  std::vector<std::pair<std::string, std::string>> unknown_items;  // device and id; an empty id: the device
  std::optional<AgentError> agent_error;                           // the agent's refusal instead of all that
};

// Errors as StreamsReader's, but an MTConnectError is a value here.
Result<HeardDocument> hear_document(std::string_view body, const std::string& name, const ItemIndex& index,
                                    const Vocabulary& words, Remarks& remarks);

}  // namespace hw::feeds
