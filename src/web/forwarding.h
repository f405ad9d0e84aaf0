#pragma once
// A request that came to a server which does not hold the plant is passed on to the one that does. The two know each
// other by a secret that only servers of the same database can read, so that what the first one says of the client (its
// address, its line) is believed, and of nobody else.

#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>

#include "libs/http/message.h"
#include "src/service/plants.h"

namespace hw::web {

// Whether a server of the group passed the request on to the one with this secret. The request is then as the client
// sent it: remote address and line are the client's.
bool take_forwarded(http::Request& request, std::string_view own_secret);

// Passes requests on. Each waits on a thread of the caller's; a server that has stopped must not take all of them, so
// that only so many wait for one at a time. Safe for several threads at once.
class Forwarding {
 public:
  // The holder's answer, streams of events included. 503 where it does not answer: it may just have died, and another
  // one takes the plant within seconds.
  http::Response forward(const http::Request& request, const service::PlantHolder& holder);

 private:
  class Place;
  std::mutex mutex_;
  std::map<std::string, int> waiting_;  // by server
};

// What is said while nobody can answer for a plant.
http::Response try_again_soon(std::string_view says);

}  // namespace hw::web
