#pragma once
// What a shop's server answers, whatever lines the requests came over: API, live events, health, the built app.
// Everything but what the contract opens to everybody is for people who have signed in and programs with a token.

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "src/service/access_book.h"
#include "src/service/devices.h"
#include "src/service/plant_line.h"
#include "src/service/proposals.h"
#include "src/web/floor_lines.h"
#include "src/web/live_events.h"
#include "src/web/reach.h"
#include "src/web/site_files.h"

namespace hw::web {

// What a site has of the group that it is in.
struct InGroup {
  GroupTold* told = nullptr;            // of the group's own site, what is told of its plants; a plant's has none
  std::function<void()> outdated = {};  // see ApiParts
};

class ShopSite {
 public:
  // The shop, the reach and what is told of the group outlive it. Refuses what the store refuses.
  static Result<std::unique_ptr<ShopSite>> open(service::OpenShop& shop, std::shared_ptr<const SiteFiles> files,
                                                const Reach& reach, Clock clock, InGroup group = {});
  ~ShopSite();

  http::Response answer(http::Request request) const;
  // What is said to the head of a request that may have a large body, before that is read; nothing: it may come.
  std::optional<http::Response> answer_before(http::Request head) const;

  // Whether anybody can sign in; before that only the command line lets people in.
  bool can_sign_in() const;
  // All that is answered besides the app's files.
  std::vector<http::Route> routes() const { return router_.routes(); }
  // What the other servers of a group are told of this plant, as JSON of a PlantLineView.
  Result<std::string> plant_line(Instant now);
  // Tells everybody who looks at the group's site that its plants have changed.
  void tell_of_plants();
  // Ends event streams; what is asked later is still answered.
  void end_streams();

 private:
  ShopSite(service::OpenShop& shop, std::shared_ptr<const SiteFiles> files, const Reach& reach, Clock clock,
           InGroup group);
  Result<void> open_access();
  void add_own_routes();
  void add_routes();
  http::Response from_app(const http::Request& request) const;

  service::OpenShop& shop_;
  std::shared_ptr<const SiteFiles> files_;
  const Reach& reach_;
  Clock clock_;
  InGroup group_;
  std::unique_ptr<service::Devices> devices_;
  std::unique_ptr<service::AccessBook> book_;
  http::Channel channel_;
  FloorLines floor_;
  service::UseForecasts forecasts_;
  service::PartStudies studies_;
  service::StoresStudies stores_;
  service::Proposals proposals_;
  http::Router router_;
  std::unique_ptr<LiveEvents> live_;
  std::vector<service::GroupWeekView> weeks_;  // told by plant_line, which one thread calls
  std::optional<Instant> weeks_at_;
};

}  // namespace hw::web
