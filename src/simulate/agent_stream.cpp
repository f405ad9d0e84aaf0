#include "src/simulate/agent_stream.h"

#include <fmt/format.h>

namespace hw::simulate {

namespace {
constexpr std::string_view boundary = "d2f7a14c90b85e63";
}

SharedAgent::SharedAgent(std::unique_ptr<Source> from, AgentOptions options, std::function<Instant()> now)
    : source(std::move(from)),
      clock(std::move(now)),
      agent(source->machines(), std::move(options), source->taken_until(clock())) {
  say_standing();
}

void SharedAgent::say_standing() {
  arrivals_.clear();
  source->take_standing(arrivals_);
  agent.append(arrivals_);
}

void SharedAgent::advance() {
  arrivals_.clear();
  source->take(clock(), arrivals_);
  for (Arrival& arrival : arrivals_) arrival.event.at = arrival.event.at + faults.clock_jump;
  agent.append(arrivals_);
}

void SharedAgent::restart(std::uint64_t instance_id) {
  ++generation;
  agent.restart(instance_id, source->taken_until(clock()));
  say_standing();
}

AgentStream::AgentStream(std::shared_ptr<SharedAgent> agent, StreamAsk ask)
    : agent_(std::move(agent)),
      ask_(ask),
      generation_(agent_->generation),
      // What there is already is sent at once.
      last_part_at_(Clock::now() - ask_.interval) {
  if (!ask_.sample.from) ask_.sample.from = agent_->agent.first_sequence();
}

std::string AgentStream::content_type() { return fmt::format("multipart/x-mixed-replace;boundary={}", boundary); }

std::string AgentStream::take() {
  if (closed_) return {};
  if (part_) return go_on();
  const std::lock_guard lock(agent_->mutex);
  if (agent_->generation != generation_) {
    closed_ = true;
    return {};
  }
  const Clock::time_point now = Clock::now();
  if (agent_->faults.stalls || !is_due(now)) return {};
  return next_part(now);
}

bool AgentStream::is_due(Clock::time_point now) const {
  const bool has_news = *ask_.sample.from != agent_->agent.next_sequence();
  return now >= last_part_at_ + (has_news ? ask_.interval : ask_.heartbeat);
}

std::string AgentStream::next_part(Clock::time_point now) {
  const Document document = agent_->agent.sample(ask_.sample, agent_->clock());
  if (document.status == 200) {
    ask_.sample.from = document.next_sequence;
    // What is new belongs to other machines: that is no news.
    if (document.observations == 0 && now < last_part_at_ + ask_.heartbeat) return {};
  } else {
    closed_ = true;
  }
  last_part_at_ = now;
  return begin_part(document);
}

std::string AgentStream::begin_part(const Document& document) {
  FaultyBody body = spoil(document.xml, agent_->faults);
  // A part that breaks off had promised all.
  const std::uint64_t bytes = body.ends_connection ? document.xml.size() : body.bytes();
  const std::string_view type = agent_->faults.says_html ? "text/html" : "text/xml";
  body.head = fmt::format("--{}\r\nContent-type: {}\r\nContent-length: {}\r\n\r\n{}", boundary, type, bytes, body.head);
  if (!body.ends_connection) body.tail += "\r\n";
  part_.emplace(std::move(body));
  return go_on();
}

// The part's next piece.
std::string AgentStream::go_on() {
  const bool is_last = part_->closed();
  std::string piece = part_->take();
  if (!is_last) return piece;
  if (part_->ends_connection()) closed_ = true;
  part_.reset();
  return piece;
}

void AgentStream::on_wake(std::function<void()> wake) {
  const std::lock_guard lock(wake_mutex_);
  wake_ = std::move(wake);
  if (wake_) wake_();
}

void AgentStream::wake() {
  const std::lock_guard lock(wake_mutex_);
  if (wake_) wake_();
}

}  // namespace hw::simulate
