#include "src/web/serve_shop.h"

#include <spdlog/spdlog.h>

#include "libs/sql/storage_failed.h"

namespace hw::web {
namespace {

// This computer's own address of the plain line.
std::string own_address(std::uint16_t port, const Endpoint& plain) {
  const bool is_own = !is_for_others(plain) && plain.address.find(':') == std::string::npos;
  const std::string host = plain.address == "::1" ? "[::1]" : is_own ? plain.address : "127.0.0.1";
  return fmt::format("http://{}:{}", host, port);
}

std::string where_it_is(const WebServer& web, const std::string& own) {
  const std::string first = web.reach().first_address();
  const std::string others =
      first.empty() ? "Only this computer can reach it."
                    : fmt::format("Phones begin at {}/join; a lead lets them join at {}/join.", first, own);
  return fmt::format("Hourwright is at {}/\n{} Ctrl-C ends it.", own, others);
}

std::unique_ptr<service::NightlyCopies> start_copying(service::OpenShop& shop, const ServeOptions& options) {
  shop.set_copies({.keeping = options.keeping, .last_good = {}, .trouble = {}});
  if (options.keeping != copies::Keeping::nightly) return nullptr;
  service::CopyMaking making = options.copy_making;
  making.clock = now;
  making.report = [](std::string_view says) { spdlog::warn("{}", says); };
  return std::make_unique<service::NightlyCopies>(shop, std::move(making));
}

std::unique_ptr<service::SendUpward> start_sending(service::OpenShop& shop, const ServeOptions& options) {
  if (options.shipments == nullptr || !options.upward) return nullptr;
  service::Upward upward = *options.upward;
  upward.clock = now;
  upward.report = [](std::string_view says) { spdlog::warn("{}", says); };
  return std::make_unique<service::SendUpward>(shop, *options.shipments, std::move(upward));
}

Result<void> serve(service::Store& store, const ServeOptions& options, const Ready& ready,
                   const std::function<void()>& wait) {
  HW_TAKE(shop, service::OpenShop::open(store));
  service::FeedsOptions feeds_options;
  feeds_options.store_every = options.store_every;
  feeds_options.clock = now;
  feeds_options.report = [](std::string_view says) { spdlog::warn("{}", says); };
  HW_TAKE(web, WebServer::start(*shop, options.web, now));
  HW_TAKE(feeds, service::RunningFeeds::start(*shop, feeds_options));
  const auto copying = start_copying(*shop, options);
  const auto sending = start_sending(*shop, options);
  const std::string own = own_address(web->port(), options.web.plain);
  ready({where_it_is(*web, own), own, web->can_sign_in()});
  wait();
  web->stop();
  return feeds->stop();
}

}  // namespace

Result<void> serve_group(service::Plants& plants, const GroupOptions& options, const Ready& ready,
                         const std::function<void()>& wait) {
  try {
    HW_TAKE(group, GroupServer::start(plants, options, now));
    const std::string own = own_address(group->port(), options.web.plain);
    ready({fmt::format("Hourwright is at {}/, and each plant at PLANT.NAME with that port. Ctrl-C ends it.", own), own,
           true});
    wait();
    return {};
  } catch (const sql::StorageFailed& failed) {
    return refuse(failed.error());
  }
}

Result<void> serve_shop(service::Store& store, const ServeOptions& options, const Ready& ready,
                        const std::function<void()>& wait) {
  try {
    return serve(store, options, ready, wait);
  } catch (const sql::StorageFailed& failed) {
    return refuse(failed.error());
  }
}

}  // namespace hw::web
