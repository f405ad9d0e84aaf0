#pragma once
// A live feed: keeps asking an agent over HTTP until it is stopped. FollowerState decides, this joins it with a
// connection and the clock.

#include <functional>
#include <mutex>
#include <string>

#include "libs/http/cancel.h"
#include "libs/http/client.h"
#include "src/feeds/follower_state.h"

namespace hw::feeds {

struct AgentAddress {
  http::Url url;        // http://10.0.0.7:5000 or http://10.0.0.7:5000/lathe-l
  std::string ca_file;  // https: certificates to trust instead of the system's; empty: the system's
};

class AgentFollower {
 public:
  // The sink outlives it. `clock` gives the time; empty: the system's.
  AgentFollower(AgentAddress address, FollowerSettings settings, std::optional<Stored> stored, Sink& sink,
                std::function<Instant()> clock = {});

  // Returns once `stop` is cancelled and what was being handed over is taken or refused. Waits for the network, so it
  // has a thread of its own.
  void run(const http::CancelToken& stop);

  // From any thread.
  FollowerView view() const;

 private:
  class StreamReading;
  void ask(const Ask& ask);
  void ask_document(const http::Url& url);
  void ask_stream(const http::Url& url);
  bool hand_over(Outcome outcome);
  void failed(const Error& error);
  void publish();
  void publish_trouble(const Error& error, Instant next_try_at);
  bool wait_until(Instant time) const;

  AgentAddress address_;
  FollowerSettings settings_;
  FollowerState state_;
  Sink& sink_;
  std::function<Instant()> clock_;
  http::CancelToken stop_;
  mutable std::mutex mutex_;
  FollowerView shown_;  // guarded by mutex_
};

}  // namespace hw::feeds
