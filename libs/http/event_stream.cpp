#include "libs/http/event_stream.h"

#include <deque>
#include <mutex>
#include <unordered_map>

#include "libs/http/message.h"
#include "libs/values/assert.h"

namespace hw::http {
namespace {

bool is_one_line(const std::string& text) { return text.find_first_of("\r\n") == std::string::npos; }

// One "data:" line for each line of the text; CR LF, LF and CR all end a line, as the browser reads them.
std::string data_lines(const std::string& text) {
  std::string out = "data: ";
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\r' || text[i] == '\n') {
      out += "\ndata: ";
      if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') ++i;
    } else {
      out += text[i];
    }
  }
  return out + '\n';
}

const SharedBytes& resync_bytes() {
  static const SharedBytes bytes = std::make_shared<const std::string>(print({"resync", "{}", "", ""}));
  return bytes;
}

}  // namespace

std::string print(const Event& event) {
  HW_ASSERT(is_one_line(event.event) && is_one_line(event.id), "an event's kind and id have no line breaks");
  std::string out;
  if (!event.event.empty()) out += "event: " + event.event + '\n';
  if (!event.id.empty()) out += "id: " + event.id + '\n';
  return out + data_lines(event.data) + '\n';
}

// What waits for one subscriber. Its mutex is taken after that of Members, never before it.
struct Subscription::State {
  std::mutex mutex;
  std::deque<SharedBytes> waiting;
  std::size_t bytes = 0;
  bool closed = false;
  bool woken = false;  // since the last take(): one call of `wake` is enough
  std::function<void()> wake;
  std::function<bool(std::string_view)> wants;
  std::weak_ptr<Channel::Members> members;

  void add(const SharedBytes& event, const ChannelLimits& limits);
  void close();
  void wake_once();
};

struct Channel::Members {
  mutable std::mutex mutex;
  std::unordered_map<const Subscription::State*, std::shared_ptr<Subscription::State>> all;
  bool closed = false;
};

void Subscription::State::add(const SharedBytes& event, const ChannelLimits& limits) {
  const std::lock_guard lock(mutex);
  waiting.push_back(event);
  bytes += event->size();
  if (waiting.size() > limits.events_max || bytes > limits.bytes_max) {
    waiting.assign(1, resync_bytes());
    bytes = resync_bytes()->size();
  }
  wake_once();
}

void Subscription::State::close() {
  const std::lock_guard lock(mutex);
  closed = true;
  wake_once();
}

void Subscription::State::wake_once() {
  if (woken || !wake) return;
  woken = true;
  wake();
}

Subscription::Subscription(std::shared_ptr<State> state) : state_(std::move(state)) {}

Subscription::~Subscription() {
  if (const auto members = state_->members.lock()) {
    const std::lock_guard lock(members->mutex);
    members->all.erase(state_.get());
  }
}

std::string Subscription::take() {
  const std::lock_guard lock(state_->mutex);
  std::string out;
  out.reserve(state_->bytes);
  for (const SharedBytes& event : state_->waiting) out += *event;
  state_->waiting.clear();
  state_->bytes = 0;
  state_->woken = false;
  return out;
}

bool Subscription::closed() const {
  const std::lock_guard lock(state_->mutex);
  return state_->closed;
}

void Subscription::on_wake(std::function<void()> wake) {
  const std::lock_guard lock(state_->mutex);
  state_->wake = std::move(wake);
  state_->woken = false;
  if (!state_->waiting.empty() || state_->closed) state_->wake_once();
}

Channel::Channel(ChannelLimits limits) : members_(std::make_shared<Members>()), limits_(limits) {}

Channel::~Channel() { close(); }

std::shared_ptr<Subscription> Channel::subscribe(std::function<bool(std::string_view)> wants) {
  auto state = std::make_shared<Subscription::State>();
  state->wants = std::move(wants);
  state->members = members_;
  const std::lock_guard lock(members_->mutex);
  state->closed = members_->closed;
  members_->all.emplace(state.get(), state);
  return std::shared_ptr<Subscription>(new Subscription(std::move(state)));
}

void Channel::publish(const Event& event) {
  const auto bytes = std::make_shared<const std::string>(print(event));
  const std::lock_guard lock(members_->mutex);
  for (const auto& [key, state] : members_->all) {
    if (event.topic.empty() || !state->wants || state->wants(event.topic)) state->add(bytes, limits_);
  }
}

void Channel::end_streams() {
  const std::lock_guard lock(members_->mutex);
  for (const auto& [key, state] : members_->all) state->close();
}

void Channel::close() {
  const std::lock_guard lock(members_->mutex);
  members_->closed = true;
  for (const auto& [key, state] : members_->all) state->close();
}

std::size_t Channel::subscribers() const {
  const std::lock_guard lock(members_->mutex);
  return members_->all.size();
}

}  // namespace hw::http
