#pragma once
// A shop's server from start to stop: the shop opened, its feeds followed, its pages served.

#include <functional>

#include "src/service/nightly_copies.h"
#include "src/service/running_feeds.h"
#include "src/service/send_upward.h"
#include "src/web/group_server.h"
#include "src/web/web_server.h"

namespace hw::web {

struct ServeOptions {
  WebOptions web;
  Duration store_every = Duration::seconds(5);  // how often what was counted is stored
  // Of a plant's edge: what it sends, and where; clock and report are the server's.
  service::Shipments* shipments = nullptr;
  std::optional<service::Upward> upward = {};
  // Whether copies are kept, and for Keeping::nightly how; clock and report are the server's.
  copies::Keeping keeping = copies::Keeping::not_needed;
  service::CopyMaking copy_making = {};
};

// What is told once all answers.
struct Readied {
  std::string says;     // where the server is, in lines for people
  std::string address;  // its own: http://127.0.0.1:8470
  bool can_sign_in;     // somebody can
};
using Ready = std::function<void(const Readied& readied)>;

// Serves a group's plants, as far as this server holds them, until `wait` returns. Refuses what GroupServer::start
// refuses.
Result<void> serve_group(service::Plants& plants, const GroupOptions& options, const Ready& ready,
                         const std::function<void()>& wait);

// Serves until `wait` returns; `ready` is told once all answers. What was counted is stored at
// the end.
// Refuses what opening the shop, the feeds or the listener refuses, and a database that fails.
Result<void> serve_shop(service::Store& store, const ServeOptions& options, const Ready& ready,
                        const std::function<void()>& wait);

}  // namespace hw::web
