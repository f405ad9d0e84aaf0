#pragma once
// One connection to a message broker, MQTT 5 or 3.1.1, plain or over TLS. The only place that includes Paho.
//
// Nothing is kept at the broker between two connections (a clean start): what was missed meanwhile is asked for by
// whoever reads, not remembered by the broker. Connecting again after a loss is the caller's, who knows how long to
// wait. No exception leaves it.

#include <functional>
#include <memory>
#include <span>
#include <string>
#include <string_view>

#include "libs/mqtt/broker_url.h"
#include "libs/values/instant.h"
#include "libs/values/result.h"

namespace hw::mqtt {

struct ClientOptions {
  std::string client_id = {};  // empty: the broker gives one
  Duration keep_alive = Duration::seconds(20);
  Duration answer_within = Duration::seconds(10);  // of the broker to a connect or a subscription
};

// Valid only during the call that hands it over.
struct Message {
  std::string_view topic;
  std::string_view payload;
  bool is_retained = false;   // an old value that the broker had kept
  bool is_duplicate = false;  // the broker says that it may have come before
};

// Both are called on a thread of the client's own, one call at a time, and may publish; they must not throw and must
// not connect, subscribe or disconnect. While `message` works, nothing more is read from the broker.
struct Hearing {
  std::function<void(const Message&)> message;
  std::function<void(const std::string& why)> lost;  // the connection, not by disconnect()
};

enum class Retained : bool { no, yes };

class Client {
 public:
  Client(BrokerUrl url, ClientOptions options, Hearing hearing);
  ~Client();  // disconnects; nothing is heard afterwards
  Client(const Client&) = delete;
  Client& operator=(const Client&) = delete;

  // Waits for the broker's answer. Errors name broker and trouble: unreachable, timed_out, not_allowed (user or
  // password), bad_input (a password file that does not read), peer_misbehaved.
  Result<void> connect();
  // Topic filters, all at QoS 1 ("at least once"). Waits; errors as connect().
  Result<void> subscribe(std::span<const std::string> filters);
  // Hands over at QoS 1 and does not wait: a success says that it is on its way, not that the broker has it. Refuses
  // (unreachable) without a connection, (too_often) while too many are on their way.
  Result<void> publish(const std::string& topic, std::string_view payload, Retained retained);
  bool is_connected() const;
  void disconnect();

 private:
  class Connection;
  std::unique_ptr<Connection> connection_;
};

}  // namespace hw::mqtt
