#pragma once
// The agent over HTTP: /probe, /current, /sample and the same below /{device}/, with streaming (interval, heartbeat).
// And its faults, for tests of whoever follows it.

#include <cstdint>
#include <functional>
#include <memory>
#include <string>

#include "libs/values/instant.h"
#include "libs/values/result.h"
#include "src/simulate/agent.h"

namespace hw::simulate {

// What is wrong with the agent from the next answer on (streams: from the next part on).
struct Faults {
  bool stalls = false;              // streams stay open and say nothing, not even a heartbeat
  bool says_html = false;           // 200 and a page
  bool never_ends = false;          // a document that goes on and on
  bool breaks_off = false;          // a part (or body) that ends in the middle, then the connection
  bool says_doctype = false;        // a document type declaration with entities that multiply
  bool says_gigabyte = false;       // one value of a thousand million characters
  std::uint64_t sequence_back = 0;  // all sequence numbers lower by so much under the same instanceId
  Duration clock_jump;              // added to the stamps of all that arrives from now on
};

struct AgentServerOptions {
  std::string address = "127.0.0.1";
  std::uint16_t port = 0;  // 0: any that is free
  AgentOptions agent;      // instance_id 0: the start time in seconds
  Duration tick = Duration::millis(50);
  std::function<Instant()> clock;  // real time; empty: the system's
  Faults faults;
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
  // Loses all that is buffered, as a buffer does that was too small.
  void overrun();
  // A new deviceModelChangeTime.
  void touch_model();

  std::uint64_t next_sequence() const;
  void close();

 private:
  struct Running;
  explicit AgentServer(std::unique_ptr<Running> running);
  std::unique_ptr<Running> running_;
};

}  // namespace hw::simulate
