#pragma once
// What a year came to.

#include <array>

#include <boost/describe/class.hpp>

namespace hw::rehearsal {

struct Outcome {
  double failures = 0;
  double stops = 0;           // planned ones; a failure is none
  double tasks_done = 0;      // by plan
  double hands_on_hours = 0;  // of the planned work
  double standing_hours = 0;  // in stops, set-up included, and after failures
  double cost = 0;            // labour, standing, set-ups, parts and failures
};
BOOST_DESCRIBE_STRUCT(Outcome, (), (failures, stops, tasks_done, hands_on_hours, standing_hours, cost))

using Figure = double Outcome::*;
inline constexpr std::array<Figure, 6> figures{&Outcome::failures,       &Outcome::stops,          &Outcome::tasks_done,
                                               &Outcome::hands_on_hours, &Outcome::standing_hours, &Outcome::cost};

}  // namespace hw::rehearsal
