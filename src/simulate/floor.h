#pragma once
// A shop floor that never was: for any span of time what its machines do (the truth) and what their feeds say of it.
//
// Everything follows from (seed, machine key, time): the same span asked for in one piece or in many gives the same. No
// clock is read. Floor time is UTC with whole milliseconds; shifts are in the plan's zone. A day's work is planned from
// 04:00 to 04:00 local time, when nothing moves.
//
// In: a plan and the machines. Out: events in the order in which an agent would get them; true time of each counter.
// Limits: nothing happens before the plan's first day. Days that have been asked for leave about 200 bytes a machine.

#include <array>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "libs/values/instant.h"
#include "libs/values/local_date.h"
#include "libs/values/zone.h"
#include "src/simulate/event.h"
#include "src/simulate/machine.h"

namespace hw::simulate {

enum class FeedQuality : std::uint8_t {
  faithful,  // nothing is lost, all clocks agree, every switch-off is said: counts equal the truth
  lossy,     // lost connections, clocks that run ahead, feeds that die with their machine
};

struct FloorPlan {
  std::uint64_t seed = 1;
  Zone zone = Zone::utc();
  LocalDate begins_on = LocalDate::of(2020, 1, 1);
  std::vector<LocalDate> closed_on = {};  // holidays
  FeedQuality feed = FeedQuality::lossy;
};

// How much of it is told. Hours, cycles and revolutions are the same in both.
enum class Detail : std::uint8_t {
  turns,  // states, speeds, and when a feed begins and ends: for months of history
  full,   // each change of feed and load, the axes, positions: 20 to 60 observations a minute while it cuts
};

// What a perfect observer measures, by the counters' conventions (cutting = a program runs, a spindle turns and the
// tool feeds; rapids with a turning spindle count).
struct TrueUse {
  Duration powered, operating, spindle, axis, feeding, cutting;
  std::array<Duration, 2> each_spindle;
  Duration automatic;  // operating and every halt within a program, as controls count it
  std::int64_t parts = 0;

  bool operator==(const TrueUse&) const = default;
};

class MachineStory;

class Floor {
 public:
  Floor(FloorPlan plan, std::span<const MachineEntry> entries);
  ~Floor();
  Floor(const Floor&) = delete;
  Floor& operator=(const Floor&) = delete;

  const FloorPlan& plan() const { return plan_; }
  const std::vector<Machine>& machines() const { return machines_; }

  // Appends what arrives in [from, to), in order of arrival.
  void tell(std::size_t machine, Instant from, Instant to, Detail detail, std::vector<Event>& out) const;
  // What every item of the machine says just before `at`, said anew (both times are `at`, stamps by the machine's
  // clock), as a feed does that connects at that moment; unknown where it is away.
  std::vector<Event> standing(std::size_t machine, Instant at) const;
  // The true use over [from, to).
  TrueUse truth(std::size_t machine, Instant from, Instant to) const;

  // For following without planning a day twice: all of the floor's day that holds `at`.
  struct Day {
    Instant begin, end;
    std::vector<Event> events;
  };
  Day day_of(std::size_t machine, Instant at, Detail detail) const;
  // Before it nothing is told and nothing true.
  Instant begin_of_first_day() const;

 private:
  FloorPlan plan_;
  std::vector<Machine> machines_;
  std::vector<std::unique_ptr<MachineStory>> stories_;
};

}  // namespace hw::simulate
