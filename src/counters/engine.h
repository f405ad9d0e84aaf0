#pragma once
// Counts one machine: observations in order of time in, tallies out, in one pass.
//
//   observations -> Ties (a moment is settled before anything counts) -> MotionFinder (only where positions are all
//   there is) -> Meter (gates and integrals)
//
// In steady state nothing is allocated, and what is kept does not grow: some hundred bytes an item, and the
// observations of the last 2 s where motion comes from positions.

#include <memory>
#include <vector>

#include "src/counters/meter.h"
#include "src/counters/motion.h"
#include "src/counters/ties.h"

namespace hw::counters {

class Engine {
 public:
  // `present`: for recordings, which items are known at any time; empty for live use.
  Engine(std::shared_ptr<const MachineModel> model, CountSettings settings, MeterUse use,
         std::vector<bool> present = {});

  // The next observation or mark; its time is not before the last one's.
  void observe(const Observation& observation) {
    if (observation.at != moment_at_) close_moment(observation.at);
    ties_.add(observation);
  }

  // Counts all that has been observed, up to the last moment.
  void drain();

  // The moment that is still open: observations before it come too late.
  Instant moment_at() const { return moment_at_; }
  const Meter& meter() const { return meter_; }
  Meter& meter() { return meter_; }

 private:
  template <class Archive>
  friend void archive_engine(Archive& archive, Engine& engine);

  void close_moment(Instant next_at);

  Ties ties_;
  MotionFinder motion_;
  Meter meter_;
  Instant moment_at_;
};

}  // namespace hw::counters
