#include "src/web/serve_shop.h"

#include <spdlog/spdlog.h>

#include "libs/sql/storage_failed.h"

namespace hw::web {
namespace {

Result<void> serve(service::Store& store, const ServeOptions& options,
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

}  // namespace

Result<void> serve_shop(service::Store& store, const ServeOptions& options,
                        const std::function<void(std::string_view)>& ready, const std::function<void()>& wait) {
  try {
    return serve(store, options, ready, wait);
  } catch (const sql::StorageFailed& failed) {
    return refuse(failed.error());
  }
}

}  // namespace hw::web
