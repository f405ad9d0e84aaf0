#pragma once
// The agent over HTTP: /probe, /current, /sample and the same below /{device}/ (its key or uuid), with streaming
// (interval, heartbeat). And its faults, for tests of whoever follows it.

#include <cstdint>
#include <functional>
#include <memory>
#include <string>

#include "libs/values/instant.h"
#include "libs/values/result.h"
#include "src/simulate/agent.h"
#include "src/simulate/faults.h"

namespace hw::simulate {

struct AgentServerOptions {
  std::string address = "127.0.0.1";
  std::uint16_t port = 0;  // 0: any that is free
  AgentOptions agent{};    // instance_id 0: the start time in seconds
  Duration tick = Duration::millis(50);
  std::function<Instant()> clock{};  // real time, called from several threads; empty: the system's
  Faults faults{};
};

class AgentServer {
 public:
  // Errors as the HTTP listener's: a port in use, an address that is not one.
  static Result<std::unique_ptr<AgentServer>> open(std::unique_ptr<Source> source, AgentServerOptions options);
  ~AgentServer();  // closes

  std::uint16_t port() const;
  std::string url() const;  // http://127.0.0.1:5000

  void set_faults(const Faults& faults);
  enum class Identity : std::uint8_t { fresh, kept };
  // As if the agent's process had ended and begun again: streams end, the buffer is empty, sequences begin at 1. With
  // its identity kept it is the broken agent that counts from 1 again under the same instanceId.
  void restart(Identity identity = Identity::fresh);
  // Ends all streams as a lost connection does; nothing else changes.
  void hang_up();
  // Loses all that is buffered, as a buffer does that was too small.
  void overrun();
  // Gives the newest so many sequence numbers away again under the same instanceId.
  void go_back(std::uint64_t steps);
  // A new deviceModelChangeTime.
  void touch_model();

  // Takes what has arrived by now, without waiting for the tick.
  void advance();
  std::uint64_t instance_id() const;
  std::uint64_t next_sequence() const;
  // Ends streams and listener; no call but the destructor after it.
  void close();

 private:
  struct Running;
  explicit AgentServer(std::unique_ptr<Running> running);
  std::unique_ptr<Running> running_;
};

}  // namespace hw::simulate
