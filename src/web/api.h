#pragma once
// The JSON API of api/openapi.yaml over the service's use cases. Nothing is decided here: bodies are read, use cases
// called, answers printed.

#include <functional>

#include "libs/http/event_stream.h"
#include "libs/http/router.h"
#include "src/service/part_study.h"
#include "src/service/proposals.h"
#include "src/service/stores_study.h"
#include "src/service/use_cases.h"
#include "src/web/floor_lines.h"
#include "src/web/group_told.h"
#include "src/web/reach.h"

namespace hw::web {

using Clock = std::function<Instant()>;

struct ApiParts {
  service::OpenShop& shop;
  FloorLines& floor;
  Clock clock;
  http::Channel& events;  // `machine`, `tasks`, `stores`
  service::UseForecasts& forecasts;
  service::Proposals& proposals;
  service::PartStudies& studies;
  service::StoresStudies& stores;
  http::SharedBytes contract_json;  // the contract, for GET /api/openapi.json
  const Reach& reach;               // whether other devices reach the server
  GroupTold* group = nullptr;       // of a group's own site; a shop's has none
  // Told when the shop is not what the store holds any more: a shipment of its edge has been taken.
  std::function<void()> outdated = {};
};

// Adds every route of the contract. The parts outlive the router.
void add_api(http::Router& router, const ApiParts& parts);

}  // namespace hw::web
