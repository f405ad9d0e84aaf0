#include "src/service/followed_feed.h"

#include "libs/http/url.h"
#include "libs/mqtt/broker_url.h"

namespace hw::service {

Result<void> check_feed_url(std::string_view url) {
  if (mqtt::is_broker_url(url)) {
    HW_TRY(mqtt::parse_broker_url(url));
  } else {
    HW_TRY(http::parse_url(url));
  }
  return {};
}

Result<std::unique_ptr<FollowedFeed>> follow_feed(OpenShop& shop, const FeedRecord& record,
                                                  const Following& following) {
  return mqtt::is_broker_url(record.url) ? follow_broker(shop, record, following)
                                         : follow_agent(shop, record, following);
}

}  // namespace hw::service
