#pragma once
// A machine floor that publishes itself to a message broker: the outbox joined with a connection, on a thread of its
// own until it is destroyed.

#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <thread>

#include "libs/http/cancel.h"
#include "libs/mqtt/client.h"
#include "src/simulate/message_outbox.h"

namespace hw::simulate {

// What goes wrong on the way, on purpose: of so many messages one ... 0: none.
struct SendFaults {
  unsigned repeat_every = 0;            // is sent twice
  unsigned swap_every = 0;              // is sent behind the one that follows it
  unsigned drop_every = 0;              // is never sent, though the publisher takes it for sent
  std::uint64_t messages = UINT64_MAX;  // only of the first so many
};

struct PublisherOptions {
  mqtt::BrokerUrl broker;
  OutboxOptions outbox = {};
  SendFaults faults = {};
  Duration tick = Duration::millis(20);           // how often the source is asked
  Duration message_every = Duration::seconds(5);  // of a machine that says nothing
  std::size_t messages_max = 500;                 // handed over at once
  std::function<Instant()> clock = {};            // empty: the system's
};

class MessagePublisher {
 public:
  MessagePublisher(std::unique_ptr<Source> source, PublisherOptions options);
  ~MessagePublisher();
  MessagePublisher(const MessagePublisher&) = delete;
  MessagePublisher& operator=(const MessagePublisher&) = delete;

  // Messages that were made and that the server has not said to be stored.
  std::size_t kept() const;
  // Up to here the messages that were made tell everything.
  Instant told_until() const;

 private:
  void run();
  void make_messages();
  void send();
  bool connect();
  void disturb(std::vector<feeds::Publication>& messages);

  std::unique_ptr<Source> source_;
  PublisherOptions options_;
  mutable std::mutex mutex_;
  MessageOutbox outbox_;  // guarded by mutex_
  Instant told_until_;    // guarded by mutex_
  bool has_begun_ = false;
  std::vector<Instant> last_said_;  // by machine
  std::uint64_t sent_ = 0;
  http::CancelToken stop_;
  mqtt::Client client_;
  std::thread thread_;
};

}  // namespace hw::simulate
