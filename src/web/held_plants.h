#pragma once
// The plants of a group that this server holds, each open with its feeds and its site. Every server of the group takes
// its share of what nobody holds, and gives up what it has beyond it.

#include <atomic>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "src/service/plants.h"
#include "src/service/running_feeds.h"
#include "src/web/lives_reading.h"
#include "src/web/shop_site.h"

namespace hw::web {

// Gone when the last request to it has been answered; then another server may take the plant.
struct HeldPlant {
  std::uint64_t lapses = 0;  // see service::Plants
  std::unique_ptr<Reach> reach;
  std::shared_ptr<service::Store> store;  // also of the one that takes its place
  std::unique_ptr<service::OpenShop> shop;
  std::unique_ptr<ShopSite> site;
  std::unique_ptr<service::RunningFeeds> feeds;  // of a plant that is kept here
  std::atomic<bool> is_outdated = false;         // the store holds more than the shop that was opened
  std::optional<Instant> told_at = {};           // its line; tell_and_hear() alone knows it
};

struct HoldingParts {
  service::Plants& plants;
  std::shared_ptr<const SiteFiles> files;
  const Reach& reach;  // of the group
  Clock clock;
  Duration store_every = Duration::seconds(5);
  std::function<void(std::string_view)> report;
};

class HeldPlants {
 public:
  explicit HeldPlants(HoldingParts parts)
      : parts_(std::move(parts)), lives_(parts_.plants, told_.lives, parts_.report) {}

  // One round: lets go of what is not this server's any more, takes what nobody holds, gives up what is too much. A
  // plant that cannot be opened is tried again half a minute later. Called by one thread.
  void look();
  // Tells the other servers of the plants held here, and takes what they told: for the group's site. A plant of which
  // nothing was told for 15 s is told of. Called by one thread.
  void tell_and_hear();
  // For the group's site: a step of LivesReading. Called by one thread.
  void read_lives();
  // Lets go of all. No look(), read_lives() and tell_and_hear() after it.
  void close();

  // The plant where this server holds it for certain.
  std::shared_ptr<const HeldPlant> find(const std::string& plant) const;
  // Who held it when this server last looked.
  std::optional<service::PlantHolder> holder_of(const std::string& plant) const;
  // Whether there was such a plant then.
  bool knows(const std::string& plant) const;
  struct Counts {
    std::size_t held = 0;
    std::size_t all = 0;
    int servers = 0;
  };
  Counts counts() const;
  // Why the last round came to nothing; empty when it did not.
  std::string trouble() const;

 private:
  Result<void> look_once();
  void let_go(const std::string& plant);
  void let_go_of_strangers(const std::vector<service::PlantSeen>& seen);
  void take_share(const std::vector<service::PlantSeen>& seen, std::size_t share);
  void give_up_surplus(std::size_t share);
  void take(const std::string& plant);
  // The caller holds the lock. Null: there was no such plant.
  const service::PlantSeen* seen(const std::string& plant) const;
  Result<std::shared_ptr<HeldPlant>> open(const std::string& plant);
  Result<std::shared_ptr<HeldPlant>> open_from(std::shared_ptr<service::Store> store, const std::string& plant);
  Result<void> follow_feeds(HeldPlant& held, const std::string& plant);
  void renew_outdated();

  std::vector<std::pair<std::string, std::shared_ptr<HeldPlant>>> held_now() const;
  void tell();
  Result<void> hear();

  HoldingParts parts_;
  GroupTold told_;
  LivesReading lives_;
  mutable std::mutex mutex_;
  std::map<std::string, std::shared_ptr<HeldPlant>> held_;  // changed by look() alone
  std::vector<service::PlantSeen> seen_;                    // when this server last looked; in the order of their keys
  std::map<std::string, Instant> not_before_;               // those that could not be opened; look() alone knows them
  int servers_ = 0;
  std::string trouble_;
};

}  // namespace hw::web
