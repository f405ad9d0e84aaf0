#pragma once
// Coming in and who may: the routes of the contract. sign_in_routes has those of the person who asks, account_routes
// those of the lead.

#include "libs/http/event_stream.h"
#include "src/service/access_book.h"
#include "src/service/devices.h"
#include "src/web/api.h"

namespace hw::web {

struct AccessParts {
  service::AccessBook& book;
  service::Devices& devices;
  service::OpenShop& shop;
  const Reach& reach;
  Clock clock;
  http::Channel& events;  // its streams are ended with sessions, so that nothing more is told to them
};

// The parts outlive the router.
void add_sign_in_routes(http::Router& router, const AccessParts& parts);
void add_own_access_routes(http::Router& router, const AccessParts& parts);
void add_account_routes(http::Router& router, const AccessParts& parts);

}  // namespace hw::web
