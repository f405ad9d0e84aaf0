#pragma once
// Where an agent's observations come from: the floor as time goes by, or a fixed list that is played at a given pace.

#include <cstdint>
#include <memory>
#include <vector>

#include "src/simulate/floor.h"
#include "src/simulate/pace.h"

namespace hw::simulate {

struct Arrival {
  std::uint32_t machine = 0;  // index into the source's machines
  Event event;
};

// Used by one thread at a time.
class Source {
 public:
  virtual ~Source() = default;
  virtual const std::vector<Machine>& machines() const = 0;
  // What has arrived since the last call (or the beginning), up to the real time `now`, in order of arrival; after a
  // long time the next part of it.
  virtual void take(Instant now, std::vector<Arrival>& out) = 0;
  // What a feed says when it connects anew: the last value of every item of every machine, as far as it was taken.
  virtual void take_standing(std::vector<Arrival>& out) = 0;
  // The stamp up to which all has been taken: no later than the next arrival's, however old that is.
  virtual Instant taken_until(Instant now) const = 0;
};

// The floor must outlive it.
std::unique_ptr<Source> play(const Floor& floor, Pace pace, Detail detail = Detail::full);

// Plays the list from the first call of take on, `per_second` arrivals a second, and then says nothing more. Stamps
// stay as they are. The machines must be those that the arrivals' indexes mean.
std::unique_ptr<Source> replay(std::vector<Machine> machines, std::vector<Arrival> arrivals, double per_second);

}  // namespace hw::simulate
