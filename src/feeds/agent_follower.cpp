#include "src/feeds/agent_follower.h"

#include <algorithm>
#include <chrono>
#include <thread>

#include "libs/http/multipart.h"

namespace hw::feeds {
namespace {

constexpr std::size_t body_bytes_max = 64 << 20;
constexpr Duration answer_within = Duration::seconds(60);
constexpr Duration retry_after = Duration::seconds(1);  // of a batch that the sink did not take

}  // namespace

// One stream's answer as it comes: parts, or one document from an agent that does not stream.
class AgentFollower::StreamReading : public http::PartSink {
 public:
  explicit StreamReading(AgentFollower& follower)
      : follower_(follower),
        silence_max_(std::max(Duration{2 * follower.settings_.heartbeat.ns}, answer_within)),
        last_part_at_(follower.clock_()) {}

  Result<void> head(int status, const http::Headers& headers) {
    status_ = status;
    const auto boundary = http::parse_boundary(headers.find("Content-Type").value_or(""));
    if (status == 200 && boundary) parts_.emplace(*boundary, *this);
    return {};
  }

  // Pieces that never make a whole part are no sign of life.
  Result<void> piece(std::string_view bytes) {
    if (follower_.clock_() - last_part_at_ > silence_max_) {
      return refuse(ErrorCode::timed_out, "the agent sends bytes, but no whole document within {} s",
                    silence_max_.as_seconds());
    }
    return parts_ ? parts_->feed(bytes) : data(bytes);
  }

  // The body is over.
  void finish() {
    if (parts_) return follower_.failed({ErrorCode::unreachable, "the agent ended the stream"});
    if (status_ == 200) follower_.state_.cannot_stream();
    follower_.hand_over(follower_.state_.answer(status_, document_, follower_.clock_()));
  }

  bool has_left() const { return has_left_; }

  Result<void> begin(const http::Headers&) override {
    document_.clear();
    return {};
  }
  Result<void> data(std::string_view bytes) override {
    if (document_.size() + bytes.size() > body_bytes_max) {
      return refuse(ErrorCode::too_large, "the agent's document is longer than {} bytes", body_bytes_max);
    }
    document_ += bytes;
    return {};
  }
  Result<void> end() override {
    last_part_at_ = follower_.clock_();
    has_left_ = follower_.hand_over(follower_.state_.answer(200, document_, last_part_at_));
    if (has_left_) return refuse(ErrorCode::conflict, "the stream is of no more use");
    return {};
  }

 private:
  AgentFollower& follower_;
  Duration silence_max_;
  Instant last_part_at_;
  int status_ = 0;
  std::optional<http::MultipartReader> parts_;
  std::string document_;
  bool has_left_ = false;
};

AgentFollower::AgentFollower(AgentAddress address, FollowerSettings settings, std::optional<Stored> stored, Sink& sink,
                             std::function<Instant()> clock)
    : address_(std::move(address)),
      settings_(settings),
      state_(std::move(settings), std::move(stored)),
      sink_(sink),
      clock_(clock ? std::move(clock) : std::function<Instant()>(now)) {}

void AgentFollower::run(const http::CancelToken& stop) {
  stop_ = stop;
  while (!stop_.cancelled()) {
    const Ask next = state_.next();
    if (!wait_until(next.not_before)) return;
    ask(next);
    publish();
  }
}

void AgentFollower::ask(const Ask& ask) {
  const http::Url url = address_.url.with(ask.path_and_query);
  ask.kind == Ask::Kind::stream ? ask_stream(url) : ask_document(url);
}

void AgentFollower::ask_document(const http::Url& url) {
  http::GetOptions options;
  options.answer_within = answer_within;
  options.body_bytes_max = body_bytes_max;
  options.ca_file = address_.ca_file;
  options.cancel = stop_;
  const auto response = http::get(url, options);
  if (!response) return failed(response.error());
  hand_over(state_.answer(response->status, response->text(), clock_()));
}

void AgentFollower::ask_stream(const http::Url& url) {
  http::StreamOptions options;
  options.silence_max = {2 * settings_.heartbeat.ns};
  options.ca_file = address_.ca_file;
  options.cancel = stop_;
  StreamReading reading(*this);
  const auto streamed = http::get_stream(
      url, options, [&](int status, const http::Headers& headers) { return reading.head(status, headers); },
      [&](std::string_view bytes) { return reading.piece(bytes); });
  if (reading.has_left() || stop_.cancelled()) return;
  streamed ? reading.finish() : failed(streamed.error());
}

// True where the stream is to be left. The state goes on only when the batch is taken: it is the sink that must not
// miss one.
bool AgentFollower::hand_over(Outcome outcome) {
  publish();
  while (outcome.batch) {
    const auto taken = sink_.take(*outcome.batch);
    if (taken) break;
    const Instant again_at = clock_() + retry_after;
    publish_trouble(taken.error(), again_at);
    if (!wait_until(again_at)) return true;
    publish();
  }
  return outcome.leaves_stream;
}

void AgentFollower::failed(const Error& error) {
  if (stop_.cancelled()) return;
  state_.failed(error, clock_());
}

void AgentFollower::publish() {
  const std::lock_guard lock(mutex_);
  shown_ = state_.view();
}

void AgentFollower::publish_trouble(const Error& error, Instant next_try_at) {
  const std::lock_guard lock(mutex_);
  shown_.last_error = error.message;
  shown_.last_error_code = error.code;
  shown_.next_try_at = next_try_at;
}

FollowerView AgentFollower::view() const {
  const std::lock_guard lock(mutex_);
  return shown_;
}

// False: stopped before that time.
bool AgentFollower::wait_until(Instant time) const {
  constexpr auto slice = std::chrono::milliseconds(50);
  while (!stop_.cancelled()) {
    const Instant present = clock_();
    if (present >= time) return true;
    std::this_thread::sleep_for(
        std::min<std::chrono::nanoseconds>(slice, std::chrono::nanoseconds((time - present).ns)));
  }
  return false;
}

}  // namespace hw::feeds
