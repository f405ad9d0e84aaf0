#pragma once
// Server-sent events (HTML standard, "text/event-stream"): any thread publishes to a channel, every subscriber's
// connection writes what waits for it. An event is put into its wire form once and shared by all subscribers.
//
// Nothing is kept for those who are not there: whoever opens a stream (again) fetches the present state afresh. A
// subscriber that is too slow loses what waits for it and gets one event "resync" instead, which says the same: fetch
// afresh. So a subscriber never holds more than the limits.
//
//   Channel floor;
//   router.add("GET", "/api/events", [&](Request) { return Response::events(floor.subscribe()); });
//   floor.publish({.event = "hours", .data = R"({"machine":"mill1"})"});

#include <cstdint>
#include <functional>
#include <memory>
#include <string>

#include "libs/http/byte_stream.h"

namespace hw::http {

struct Event {
  std::string event = {};  // its kind; empty: "message". No line breaks.
  std::string data = {};   // one or more lines
  std::string id = {};     // empty: none. No line breaks.
  std::string topic = {};  // what it is about, for subscribers who want some only; it is not sent
};

// The event as it goes over the wire, with the empty line at the end.
std::string print(const Event& event);

struct ChannelLimits {
  std::size_t events_max = 256;        // that wait for one subscriber
  std::size_t bytes_max = 256 * 1024;  // that wait for one subscriber
};

class Channel;

// One subscriber's side. The server uses it; a handler only passes it on in Response::events.
class Subscription : public ByteStream {
 public:
  ~Subscription() override;
  Subscription(const Subscription&) = delete;
  Subscription& operator=(const Subscription&) = delete;

  // All that waits, in wire form; empty when nothing does.
  std::string take() override;
  // True once the channel is closed; what still waits can be taken.
  bool closed() const override;
  // Calls `wake` (on the publisher's thread) when something waits that was not there at the last take(), at once if it
  // already does. An empty function ends it; after the return no call is under way.
  void on_wake(std::function<void()> wake) override;

 private:
  friend class Channel;
  struct State;
  explicit Subscription(std::shared_ptr<State> state);
  std::shared_ptr<State> state_;
};

class Channel {
 public:
  explicit Channel(ChannelLimits limits = {});
  ~Channel();  // closes
  Channel(const Channel&) = delete;
  Channel& operator=(const Channel&) = delete;

  // With `wants`, only events about a topic of which it says true, and those about none. It is called on the
  // publisher's thread.
  std::shared_ptr<Subscription> subscribe(std::function<bool(std::string_view topic)> wants = {});
  void publish(const Event& event);
  // Ends the streams that are open now; new ones can be opened.
  void end_streams();
  // Ends all streams, also those that are still to be opened.
  void close();
  // How many subscribers there are now.
  std::size_t subscribers() const;

 private:
  friend class Subscription;
  struct Members;
  std::shared_ptr<Members> members_;
  ChannelLimits limits_;
};

}  // namespace hw::http
