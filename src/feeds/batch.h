#pragma once
// What a live feed hands to whoever counts and keeps.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "libs/values/result.h"
#include "src/counters/machine_model.h"
#include "src/counters/observation.h"
#include "src/feeds/file_run.h"
#include "src/feeds/note.h"

namespace hw::feeds {

// How far an agent has been read. next_sequence 0: not at all.
struct Position {
  std::uint64_t instance_id = 0;
  std::uint64_t next_sequence = 0;
  bool operator==(const Position&) const = default;
};

// What a feed needs in order to go on where it was before the program ended.
struct Stored {
  Position position;
  Instant alive_at;                              // of the last batch
  std::vector<counters::MachineModel> machines;  // in any order
};

// Time of a machine of which nobody knows anything. The observations of the same batch say the same: every item is
// unknown at `from`, and has the value that it then has at `to`.
struct Interruption {
  std::string machine;
  Instant from, to;
  std::string why;
  bool operator==(const Interruption&) const = default;
};

struct MachineBatch {
  std::string machine;                              // its name in the model
  std::vector<counters::Observation> observations;  // in order of arrival
  std::vector<Reset> resets;
};

// All that one document brought. Position and counters go into one transaction: then a crash neither loses nor doubles.
struct Batch {
  std::string feed;
  Position position;    // behind this batch
  Instant received_at;  // our clock; no observation is stamped more than 15 min later
  // Up to here the agent has told everything: values hold until then. Never after received_at, never going back.
  Instant alive_at;
  // All machines of the agent, where they are not what they were; the observations belong to these models already.
  std::optional<std::vector<counters::MachineModel>> models;
  std::vector<MachineBatch> machines;
  std::vector<Interruption> interruptions;
  std::vector<Note> notes;
};

class Sink {
 public:
  virtual ~Sink() = default;
  // Returns once the batch is on disk or safely queued. After an Error the same batch comes again, until it is taken.
  virtual Result<void> take(const Batch& batch) = 0;
};

}  // namespace hw::feeds
