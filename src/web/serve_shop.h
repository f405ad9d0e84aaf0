#pragma once
// A shop's server from start to stop: the shop opened, its feeds followed, its pages served.

#include <functional>

#include "src/service/nightly_copies.h"
#include "src/service/running_feeds.h"
#include "src/web/web_server.h"

namespace hw::web {

struct ServeOptions {
  WebOptions web;
  Duration store_every = Duration::seconds(5);  // how often what was counted is stored
  // Whether copies are kept, and for Keeping::nightly how; clock and report are the server's.
  copies::Keeping keeping = copies::Keeping::not_needed;
  service::CopyMaking copy_making = {};
};

// Serves until `wait` returns; `ready` is told, in lines for people, where the server is. What was counted is stored at
// the end.
// Refuses what opening the shop, the feeds or the listener refuses, and a database that fails.
Result<void> serve_shop(service::Store& store, const ServeOptions& options,
                        const std::function<void(std::string_view)>& ready, const std::function<void()>& wait);

}  // namespace hw::web
