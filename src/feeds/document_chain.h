#pragma once
// Many documents, asked one after the other from one or several agents and given in any order, put together: what an
// agent (one instanceId) said, in its own order of sequence and each thing once; and what is missing between.
//
// Order of arrival is order of sequence. It has to be, because the rule for two clocks asks which of two observations
// the agent saw first, and because an item may come twice: in a `current` and in the samples around it.
//
// A gap shows in two ways. firstSequence past the nextSequence before it: certain. A first observation past it: certain
// only where the stream has no holes otherwise; where the request had a path or a device, holes are normal.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

#include "src/feeds/file_run.h"
#include "src/feeds/remarks.h"
#include "src/feeds/streams_reader.h"

namespace hw::feeds {

class DocumentChain : public StreamsSink {
 public:
  // `only`: the one machine whose observations are kept; none_found: all are.
  DocumentChain(std::uint32_t only, Remarks& remarks) : only_(only), remarks_(remarks) {}

  Result<void> header(const StreamsHeader& header) override;
  void observation(const Arrival& arrival) override;
  void odd_word(std::uint32_t machine, std::uint32_t item, std::string_view word) override;
  void unknown_item(std::string_view device, std::string_view data_item_id) override;

  // The document that began with header() is whole: it belongs to the chain.
  void commit(const std::string& file, const StreamsTally& tally);
  // It is not: forget it.
  void discard() { pending_.clear(); }
  bool empty() const { return instances_.empty(); }

  // Adds all that was committed to the machines' runs (one for each model), and empties the chain.
  void finish(std::vector<MachineRun>& runs);

 private:
  struct Document {
    std::string file;
    std::uint64_t first_sequence = 0, next_sequence = 0;
    std::uint64_t sequence_min = 0, sequence_max = 0, observations = 0;
    std::optional<Instant> first_at, last_at;
    bool has_holes() const { return observations < sequence_max - sequence_min + 1; }
  };
  struct Ordered {
    std::vector<counters::Observation> observations;
    std::vector<std::uint64_t> sequences;
    std::vector<Reset> resets;
    bool is_sorted = true;
    void append(const Arrival& arrival);
    void sort();
  };
  struct Instance {
    std::uint64_t id = 0;
    std::optional<Instant> began_at;  // the earliest creationTime
    std::string file;                 // its first
    std::vector<Document> documents;
    std::map<std::uint32_t, Ordered> machines;  // those that it spoke of
    std::vector<SeenTimes> seen;                // by machine
  };
  Instance& instance_of(const StreamsHeader& header, const std::string& file);
  static bool is_filtered(const std::vector<Document>& documents);
  static std::vector<Gap> gaps_of(std::vector<Document>& documents);

  std::uint32_t only_;
  Remarks& remarks_;
  StreamsHeader header_;
  std::vector<Arrival> pending_;
  std::vector<Instance> instances_;
  std::unordered_map<std::uint64_t, std::size_t> places_;  // of instances_, by id
};

}  // namespace hw::feeds
