#pragma once
// The agent as its connections share it, and one streaming answer of it.

#include <atomic>
#include <chrono>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include "libs/http/byte_stream.h"
#include "src/simulate/agent.h"
#include "src/simulate/faults.h"

namespace hw::simulate {

struct SharedAgent {
  // Says at once what stands.
  SharedAgent(std::unique_ptr<Source> from, AgentOptions options, std::function<Instant()> now);

  // Takes what has arrived by now. The caller holds the mutex, as for everything below.
  void advance();
  void restart(std::uint64_t instance_id);

  std::mutex mutex;
  std::unique_ptr<Source> source;
  std::function<Instant()> clock;
  Agent agent;
  Faults faults;
  std::uint64_t generation = 0;  // of the agent's process: streams of another one end

 private:
  void say_standing();
  std::vector<Arrival> arrivals_;
};

struct StreamAsk {
  SampleAsk sample;
  std::chrono::milliseconds interval{0};
  std::chrono::milliseconds heartbeat{10'000};
};

// multipart/x-mixed-replace: a part when there is something new, at most one in an interval; an empty document when
// there was nothing for a heartbeat.
class AgentStream : public http::ByteStream {
 public:
  AgentStream(std::shared_ptr<SharedAgent> agent, StreamAsk ask);

  std::string take() override;
  bool closed() const override { return closed_; }
  void on_wake(std::function<void()> wake) override;
  // Lets the server look again.
  void wake();

  static std::string content_type();

 private:
  using Clock = std::chrono::steady_clock;
  bool is_due(Clock::time_point now) const;
  std::string next_part(Clock::time_point now);
  std::string begin_part(const Document& document);
  std::string go_on();

  std::shared_ptr<SharedAgent> agent_;
  StreamAsk ask_;
  const std::uint64_t generation_;
  Clock::time_point last_part_at_;
  std::optional<FaultyBytes> part_;  // that is being given out
  std::atomic<bool> closed_ = false;
  std::mutex wake_mutex_;
  std::function<void()> wake_;
};

}  // namespace hw::simulate
