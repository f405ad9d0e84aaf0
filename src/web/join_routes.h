#pragma once
// What a device needs to join, and what people see of those that have: the routes of the contract, and
// GET /authority.crt, the local authority's certificate, which a phone has to trust.

#include "src/service/devices.h"
#include "src/web/api.h"
#include "src/web/reach.h"

namespace hw::web {

struct JoinParts {
  service::Devices& devices;
  const Reach& reach;
  Clock clock;
  http::Channel& events;  // its streams are ended when a device may no longer, so that nothing more is told to it
};

// Adds the routes. The parts outlive the router.
void add_join(http::Router& router, const JoinParts& parts);

}  // namespace hw::web
