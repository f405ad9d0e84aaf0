#pragma once
// One feed while it is followed, whatever it is: an agent over HTTP, or machines over a message broker. Its address
// says which.

#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "src/service/feed_sink.h"

namespace hw::service {

struct Following {
  std::function<Instant()> clock;
  std::function<void(std::string_view)> report;  // told each trouble in a sentence
};

class FollowedFeed {
 public:
  virtual ~FollowedFeed() = default;  // stops
  // Returns when its thread has ended; nothing is counted afterwards.
  virtual void stop() = 0;
  virtual CountedFeed& counted() = 0;
  virtual const std::string& key() const = 0;
  // Of one of its machines. The caller holds a lock on the shop.
  virtual FeedStatus status_of(const OpenMachine& machine) const = 0;
};

// Refuses (bad_input) an address that is neither an agent's nor a broker's.
Result<void> check_feed_url(std::string_view url);

// Runs on a thread of its own from now on, from the stored position.
Result<std::unique_ptr<FollowedFeed>> follow_feed(OpenShop& shop, const FeedRecord& record, const Following& following);

// The two kinds of them.
Result<std::unique_ptr<FollowedFeed>> follow_agent(OpenShop& shop, const FeedRecord& record,
                                                   const Following& following);
Result<std::unique_ptr<FollowedFeed>> follow_broker(OpenShop& shop, const FeedRecord& record,
                                                    const Following& following);

}  // namespace hw::service
