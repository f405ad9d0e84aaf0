#pragma once
// An MTConnect agent without its HTTP: a ring buffer of observations and the documents made of it. Requests as in the
// standard's part 1; what the text leaves open is said in README.md. Used by one thread at a time.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "src/simulate/documents.h"
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
  std::uint64_t next_sequence = 0;  // Streams: where the next sample begins
  std::size_t observations = 0;     // Streams: how many it holds
};

struct SampleAsk {
  std::optional<std::size_t> machine;  // none: all
  std::optional<std::uint64_t> from;   // none: the oldest
  std::int64_t count = 100;
};

// Of one machine a document has that machine's edition, of all 2.0.
class Agent {
 public:
  // The machines outlive it. All items are UNAVAILABLE at `at`.
  Agent(const std::vector<Machine>& machines, AgentOptions options, Instant at);

  // The place of the machine of that key or uuid.
  std::optional<std::size_t> find(std::string_view device) const;

  void append(const std::vector<Arrival>& arrivals);
  // A new instance: empty buffer, sequence from 1, every item UNAVAILABLE at `at`.
  void restart(std::uint64_t instance_id, Instant at);
  // Forgets all observations of the buffer but the last, as a buffer does that was too small. Last values stay.
  void drop_buffer();
  // The device model is said to have changed at that moment.
  void touch_model(Instant at) { model_changed_at_ = at; }
  // Forgets the newest so many (one stays) and gives their sequence numbers away again: a broken agent.
  void go_back(std::uint64_t steps);

  Document probe(std::optional<std::size_t> machine, Instant now) const;
  Document current(std::optional<std::size_t> machine, Instant now) const;
  // Refuses (404, OUT_OF_RANGE) a from before the first or after the next sequence, a count of 0 or below or beyond the
  // buffer.
  Document sample(const SampleAsk& ask, Instant now) const;
  // Any refusal as a document.
  Document error(int status, std::string_view code, std::string_view text, Instant now) const;

  std::uint64_t instance_id() const { return options_.instance_id; }
  std::uint64_t first_sequence() const { return first_; }
  std::uint64_t next_sequence() const { return first_ + size_; }

 private:
  void keep(const Arrival& arrival);
  DocumentHead head(std::optional<std::size_t> machine, Instant now) const;
  Document streams(const std::vector<Kept>& list, std::optional<std::size_t> machine, std::uint64_t next,
                   Instant now) const;
  std::optional<Document> refusal_of(const SampleAsk& ask, Instant now) const;

  const std::vector<Machine>& machines_;
  AgentOptions options_;
  std::vector<Kept> ring_;
  std::uint64_t first_ = 1;  // sequence of the oldest in the buffer
  std::uint64_t size_ = 0;
  std::vector<std::vector<Kept>> last_;  // by machine and item
  Instant model_changed_at_;
};

}  // namespace hw::simulate
