#pragma once
// An MTConnect agent without its HTTP: a ring buffer of observations and the documents made of it. Requests as in the
// standard's part 1; what the text leaves open is said in README.md. Used by one thread at a time.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "src/simulate/source.h"

namespace hw::simulate {

struct AgentOptions {
  std::size_t buffer_size = 131'072;
  std::uint64_t instance_id = 1;
  std::string sender = "floor";
};

// A document and the HTTP status that goes with it.
struct Document {
  int status = 200;
  std::string xml;
};

struct SampleAsk {
  std::optional<std::size_t> machine;  // none: all
  std::optional<std::uint64_t> from;   // none: the oldest
  std::int64_t count = 100;
};

class Agent {
 public:
  Agent(const std::vector<Machine>& machines, AgentOptions options, Instant now);

  // The place of the machine of that name, key or uuid.
  std::optional<std::size_t> find(std::string_view device) const;

  void append(const std::vector<Arrival>& arrivals);
  // A new instance: other instanceId, empty buffer, sequence from 1, every item UNAVAILABLE.
  void restart(std::uint64_t instance_id, Instant now);
  // Forgets all observations but the last, as a buffer does that was too small. Last values stay.
  void drop_buffer();
  // The device model is said to have changed at that moment.
  void touch_model(Instant now) { model_changed_at_ = now; }

  Document probe(std::optional<std::size_t> machine, Instant now) const;
  Document current(std::optional<std::size_t> machine, Instant now) const;
  // Refuses (404, OUT_OF_RANGE) a from before the first or after the next sequence, a count of 0 or beyond the buffer.
  Document sample(const SampleAsk& ask, Instant now) const;
  // Any refusal as a document.
  Document error(int status, std::string_view code, std::string_view text, Instant now) const;

  std::uint64_t instance_id() const { return options_.instance_id; }
  std::uint64_t first_sequence() const { return first_; }
  std::uint64_t next_sequence() const { return first_ + size_; }
  // Where a sample of that ask ends: its nextSequence.
  std::uint64_t end_of(std::uint64_t from, std::int64_t count) const;
  const AgentOptions& options() const { return options_; }

 private:
  struct Kept {
    std::uint64_t sequence = 0;
    Arrival arrival;
  };
  void keep(const Arrival& arrival);
  const Kept& at(std::uint64_t sequence) const { return ring_[sequence % ring_.size()]; }
  std::string head(std::string_view document, std::optional<std::size_t> machine, Instant now,
                   std::uint64_t next_sequence) const;
  std::string streams(std::vector<Kept> list, std::optional<std::size_t> machine, Instant now,
                      std::uint64_t next_sequence) const;
  std::optional<Document> refusal_of(const SampleAsk& ask, std::uint64_t from, Instant now) const;
  Edition edition_of(std::optional<std::size_t> machine) const;

  const std::vector<Machine>& machines_;
  AgentOptions options_;
  std::vector<Kept> ring_;
  std::uint64_t first_ = 1;
  std::uint64_t size_ = 0;
  std::vector<std::vector<Kept>> last_;  // by machine and item
  Instant model_changed_at_;
};

}  // namespace hw::simulate
