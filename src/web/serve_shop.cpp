#include "src/web/serve_shop.h"

#include <spdlog/spdlog.h>

namespace hw::web {

Result<void> serve_shop(service::Store& store, const ServeOptions& options,
                        const std::function<void(std::string_view)>& ready, const std::function<void()>& wait) {
  HW_TAKE(shop, service::OpenShop::open(store));
  service::FeedsOptions feeds_options;
  feeds_options.store_every = options.store_every;
  feeds_options.clock = now;
  feeds_options.report = [](std::string_view says) { spdlog::warn("{}", says); };
  HW_TAKE(web, WebServer::start(*shop, options.web, now));
  HW_TAKE(feeds, service::RunningFeeds::start(*shop, feeds_options));
  const std::string& address = options.web.address;
  const std::string host = address.find(':') == std::string::npos ? address : "[" + address + "]";
  ready(fmt::format("http://{}:{}/", host, web->port()));
  wait();
  web->stop();
  return feeds->stop();
}

}  // namespace hw::web
