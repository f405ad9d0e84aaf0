#pragma once
// When something was entered, by the server's clock, from what the device's clock said. A device may have been without
// a connection for days, and its clock may be wrong; at the moment of sending it says what its clock shows then, which
// tells how far it is off.
//
//   off         = sent_at - now           (now: when the server heard of it; the way of the message counts as 0)
//   happened_at = at - off                where the device said both, at what its clock showed when it was entered
//                 at                      where it did not say sent_at: its clock is taken to be right
//                 now                     where it did not say at
//                 now                     where that cannot be: at is after sent_at (the clock was set back meanwhile),
//                                         or it would be more than 60 days ago, or before the shop was founded
//
// It is never after now. In whole milliseconds, as times are kept.

#include <optional>

#include "libs/values/instant.h"

namespace hw::service {

struct DeviceTimes {
  std::optional<Instant> at;
  std::optional<Instant> sent_at;
};

struct ServerTimes {
  Instant now;
  Instant founded_at;  // the shop's founding
};

struct Happened {
  Instant at;
  std::optional<double> device_off_s;  // where the device's clock was a minute or more ahead; below zero: behind
};

// Takes any times that an Instant can hold.
Happened happened(const DeviceTimes& device, const ServerTimes& server);

}  // namespace hw::service
