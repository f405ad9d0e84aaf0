#pragma once
// For how long a session goes on.

#include "libs/values/instant.h"

namespace hw::access {

struct SessionLimits {
  Duration idle;   // after the last request
  Duration whole;  // after it began, whatever comes of it
};

// By password: a desk that somebody left. By PIN: a shift, on a device that is handed on.
inline constexpr SessionLimits office_limits{Duration::seconds(2 * 3600), Duration::seconds(12 * 3600)};
inline constexpr SessionLimits device_limits{Duration::seconds(4 * 3600), Duration::seconds(12 * 3600)};

// How long a one-time link is good: from the server's own console, and from a lead's page.
inline constexpr Duration console_link_life = Duration::seconds(30 * 60);
inline constexpr Duration link_life = Duration::seconds(24 * 3600);

}  // namespace hw::access
