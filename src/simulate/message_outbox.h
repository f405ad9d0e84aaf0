#pragma once
// The plain messages of machines, kept until the server says that they are stored: what a publisher needs so that
// nothing is lost and nothing counted twice, whatever happens between it and the server's disk. No I/O, no clock.

#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "src/feeds/broker_state.h"
#include "src/simulate/source.h"

namespace hw::simulate {

struct OutboxOptions {
  std::string feed = "floor";
  std::string run = "1";
  bool keeps = true;  // false: a message that was handed over is forgotten
};

class MessageOutbox {
 public:
  // The machines outlive it.
  MessageOutbox(const std::vector<Machine>& machines, OutboxOptions options);

  // What each machine can tell, to be published retained.
  std::vector<feeds::Publication> models() const;
  std::vector<std::string> topic_filters() const;  // what to listen to
  // One message of the machine: all that arrived since the last one; everything was told up to alive_at.
  void add(std::size_t machine, std::span<const Event> events, Instant alive_at);

  // What is to be sent next, in order, at most so many messages.
  std::vector<feeds::Publication> take_unsent(std::size_t count_max);
  // A new connection: all that is kept is sent again.
  void begin_session();
  // What the server says.
  void hear(std::string_view topic, std::string_view payload);

  // Messages that the server has not said to be stored.
  std::size_t kept() const;
  std::uint64_t next_sequence(std::size_t machine) const { return lines_.at(machine).next_sequence; }

 private:
  struct Line {
    std::uint64_t next_sequence = 1;
    std::uint64_t first_kept = 1;  // sequence of the first of `messages`
    std::uint64_t next_to_send = 1;
    std::deque<std::string> messages;
  };
  void forget_before(Line& line, std::uint64_t sequence);

  std::span<const Machine> machines_;
  OutboxOptions options_;
  std::vector<Line> lines_;  // by machine
};

}  // namespace hw::simulate
