#pragma once
// What the machines truly did, and what a server can know of it through their agent: a list of what happened and sums
// over it, nothing else.
//
// One agent speaks for all machines. It numbers what happens and remembers the last `buffered_max` of it; when it
// begins anew it numbers from 1 again and remembers nothing. What it has forgotten before it was asked is unknown time,
// from what the server heard last until it hears again.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "src/feeds/batch.h"
#include "tests/shop/picture.h"

namespace hw::shop_year {

inline const std::vector<std::string> machines{"mill1", "mill2", "mill3"};

struct Unknown {
  Instant from, to;
};

// How far a server has heard the agent, and what it never will hear. It goes back when a server loses what it had not
// stored, and when an older copy of its database is put back.
struct Heard {
  feeds::Position position;
  Instant alive_at;
  std::vector<Unknown> unknown = {};
  // False from when the server's clock was behind what it was told: it then has to take times for other times.
  bool is_exact = true;
};

class Floor {
 public:
  explicit Floor(Instant begins_at) : begins_at_(begins_at) {}

  void turn(const std::string& machine, char mark, Instant at);  // mark: see tests/shop/picture.h
  void agent_begins_anew(Instant at);

  // What the agent tells a server that has heard so far; `at` is the right time, `now` the server's.
  feeds::Batch answer(Heard& heard, Instant at, Instant now) const;

  // Hours of the counter in [the beginning, until), of what `heard` lets a server know; and hours of which nobody knows
  // anything. `marks`: those in which the counter counts.
  double hours(const std::string& machine, std::string_view marks, Instant until, const Heard& heard) const;
  double unknown_h(const std::string& machine, Instant until, const Heard& heard) const;
  Instant begins_at() const { return begins_at_; }

 private:
  struct Turn {
    std::string machine;
    char mark;
    Instant at;
    std::uint64_t instance;
    std::uint64_t sequence;
  };
  char mark_at(const std::string& machine, Instant at) const;
  bool remembers(const feeds::Position& position) const;
  void tell_gap(feeds::Batch& batch, Instant from, Instant to) const;
  void tell_rest(feeds::Batch& batch, Heard& heard, Instant now) const;

  Instant begins_at_;
  std::uint64_t instance_ = 1;
  std::uint64_t next_sequence_ = 1;
  std::vector<Turn> turns_;  // in order of time, from the beginning
};

}  // namespace hw::shop_year
