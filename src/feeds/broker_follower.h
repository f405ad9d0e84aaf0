#pragma once
// A live feed over a message broker: one connection, kept up until it is stopped. BrokerState decides, this joins it
// with a connection and the clock.

#include <condition_variable>
#include <functional>
#include <map>
#include <mutex>
#include <string>

#include "libs/http/cancel.h"
#include "libs/mqtt/client.h"
#include "src/feeds/back_off.h"
#include "src/feeds/broker_state.h"

namespace hw::feeds {

struct BrokerFeed {
  mqtt::BrokerUrl url;  // its name is the feed's name in plain topics; empty: MTConnect documents
  Aliases aliases;
  std::vector<FollowedMachine> machines;
  std::uint64_t seed = 1;                      // of the waits
  std::function<Instant()> clock = {};         // empty: the system's
  std::function<void(const Note&)> note = {};  // told what no machine's batch brings; empty: nobody
};

// What a page shows of the connection.
struct BrokerView {
  std::optional<Instant> connected_since;  // nothing: not connected
  Error last_error;                        // while it is not
};

class BrokerFollower {
 public:
  // The sink outlives it; it is called on the connection's thread, never two calls at once.
  BrokerFollower(BrokerFeed feed, RunSink& sink);
  ~BrokerFollower();

  // Returns once `stop` is cancelled. Waits for the network, so it has a thread of its own.
  void run(const http::CancelToken& stop);

  // The machine's share is on disk up to there. From any thread; does not wait.
  void stored(const std::string& device, const RunPosition& position);
  // From any thread.
  BrokerView view() const;
  MachineFeedView view(std::string_view device) const;

 private:
  void hear(const mqtt::Message& message);
  Result<void> begin_session();
  void say(const std::vector<Publication>& publications);
  void say_kept();
  void lost(Error error);
  void wait(const http::CancelToken& stop, std::optional<Instant> until);
  void tell_notes();
  void ask_again();

  BrokerFeed feed_;
  RunSink& sink_;
  BackOff back_off_;
  Instant asked_again_at_;
  mutable std::mutex mutex_;
  std::condition_variable wake_;
  BrokerState state_;                        // guarded by mutex_
  BrokerView view_;                          // guarded by mutex_
  std::map<std::string, RunPosition> kept_;  // guarded by mutex_: still to be said
  mqtt::Client client_;                      // the last one: it is silent before all others go
};

}  // namespace hw::feeds
