#pragma once
// What a feed over a broker hands to whoever counts and keeps: one machine's share at a time, since over a broker each
// machine has a position of its own.

#include <optional>
#include <string>
#include <vector>

#include "src/feeds/batch.h"

namespace hw::feeds {

// How far a machine's messages have been counted. next_sequence 0: not at all.
struct RunPosition {
  std::string run;  // the publisher's word for it; of an agent its instanceId
  std::uint64_t next_sequence = 0;
  Instant alive_at;  // up to here everything was told
  bool operator==(const RunPosition&) const = default;
};

// What a machine needs in order to go on where it was before the program ended.
struct StoredRun {
  RunPosition position;
  std::optional<counters::MachineModel> model;
};

// All that one message brought. Position and counters go into one transaction: then a crash neither loses nor doubles.
struct RunBatch {
  std::string device;    // as the topic names it
  RunPosition position;  // behind this batch; its alive_at is never after received_at and never goes back
  Instant received_at;   // our clock; no observation is stamped more than 15 min later
  std::optional<counters::MachineModel> model;  // where it is not what it was; the observations belong to it already
  std::vector<counters::Observation> observations;  // in order of arrival
  std::optional<Interruption> interruption;
  std::vector<Note> notes;
};

class RunSink {
 public:
  virtual ~RunSink() = default;
  // Returns once the batch is counted in memory.
  virtual void take(const RunBatch& batch) = 0;
};

}  // namespace hw::feeds
