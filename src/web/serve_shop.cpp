#include "src/web/serve_shop.h"

#include <spdlog/spdlog.h>

namespace hw::web {

Result<void> serve_shop(service::Store& store, const WebOptions& options,
                        const std::function<void(std::string_view)>& ready, const std::function<void()>& wait) {
  HW_TAKE(shop, service::OpenShop::open(store));
  service::FeedsOptions feeds_options;
  feeds_options.clock = now;
  feeds_options.report = [](std::string_view says) { spdlog::warn("{}", says); };
  HW_TAKE(web, WebServer::start(*shop, options, now));
  HW_TAKE(feeds, service::RunningFeeds::start(*shop, feeds_options));
  const std::string host =
      options.address.find(':') == std::string::npos ? options.address : "[" + options.address + "]";
  ready(fmt::format("http://{}:{}/", host, web->port()));
  wait();
  web->stop();
  return feeds->stop();
}

}  // namespace hw::web
