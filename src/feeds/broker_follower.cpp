#include "src/feeds/broker_follower.h"

#include <chrono>

namespace hw::feeds {
namespace {

constexpr Duration first_wait = Duration::seconds(1);
constexpr Duration wait_max = Duration::seconds(60);
constexpr Duration steady_after = Duration::seconds(10);
constexpr Duration ask_again_every = Duration::seconds(1);
constexpr auto look_again = std::chrono::milliseconds(50);  // whether it is to stop

std::function<Instant()> clock_of(const BrokerFeed& feed) {
  return feed.clock ? feed.clock : std::function<Instant()>(now);
}

}  // namespace

BrokerFollower::BrokerFollower(BrokerFeed feed, RunSink& sink)
    : feed_(std::move(feed)),
      sink_(sink),
      back_off_(first_wait, wait_max, feed_.seed),
      state_(feed_.url.name, feed_.aliases, std::move(feed_.machines)),
      client_(feed_.url, {},
              {[this](const mqtt::Message& message) { hear(message); },
               [this](const std::string& why) {
                 lost({ErrorCode::unreachable, why});
               }}) {
  feed_.clock = clock_of(feed_);
}

BrokerFollower::~BrokerFollower() = default;

// A connection that soon ends again is a failure too: otherwise two who push each other out would never wait.
void BrokerFollower::run(const http::CancelToken& stop) {
  while (!stop.cancelled()) {
    const Instant began_at = feed_.clock();
    if (auto begun = begin_session(); begun) {
      wait(stop, std::nullopt);
    } else {
      client_.disconnect();
      lost(begun.error());
    }
    if (feed_.clock() - began_at > steady_after) back_off_.succeeded();
    wait(stop, feed_.clock() + back_off_.after_failure());
  }
  client_.disconnect();
}

Result<void> BrokerFollower::begin_session() {
  HW_TRY(client_.connect());
  std::vector<Publication> said;
  std::vector<std::string> filters;
  {
    const std::lock_guard lock(mutex_);
    said = state_.begin_session(feed_.clock());
    filters = state_.topic_filters();
    view_ = {feed_.clock(), {}};
  }
  HW_TRY(client_.subscribe(filters));
  say(said);
  return {};
}

// Until the time, or while the connection holds; meanwhile what is stored is said.
void BrokerFollower::wait(const http::CancelToken& stop, std::optional<Instant> until) {
  while (!stop.cancelled() && (until ? feed_.clock() < *until : client_.is_connected())) {
    {
      std::unique_lock lock(mutex_);
      wake_.wait_for(lock, look_again, [this] { return !kept_.empty() && view_.connected_since; });
    }
    say_kept();
    tell_notes();
    ask_again();
  }
}

void BrokerFollower::ask_again() {
  const Instant present = feed_.clock();
  if (asked_again_at_ <= present && present - asked_again_at_ < ask_again_every) return;
  asked_again_at_ = present;
  std::vector<Publication> said;
  {
    const std::lock_guard lock(mutex_);
    if (view_.connected_since) said = state_.ask_again(present);
  }
  say(said);
}

void BrokerFollower::say_kept() {
  std::vector<Publication> said;
  {
    const std::lock_guard lock(mutex_);
    for (const auto& [device, position] : std::exchange(kept_, {})) {
      if (auto one = state_.stored(device, position)) said.push_back(std::move(*one));
    }
  }
  say(said);
}

// What cannot be said now is said when the next connection begins, or asked for again.
void BrokerFollower::say(const std::vector<Publication>& publications) {
  for (const Publication& one : publications) {
    (void)client_.publish(one.topic, one.payload, one.is_retained ? mqtt::Retained::yes : mqtt::Retained::no);
  }
}

// On the connection's thread. The sink is called without the lock: it may wait for somebody who wants to see the view.
void BrokerFollower::hear(const mqtt::Message& message) {
  BrokerOutcome outcome;
  {
    const std::lock_guard lock(mutex_);
    outcome = state_.hear({message.topic, message.payload, message.is_retained}, feed_.clock());
  }
  if (outcome.batch) sink_.take(*outcome.batch);
  say(outcome.publications);
}

void BrokerFollower::tell_notes() {
  std::vector<Note> notes;
  {
    const std::lock_guard lock(mutex_);
    notes = state_.take_notes();
  }
  if (!feed_.note) return;
  for (const Note& note : notes) feed_.note(note);
}

void BrokerFollower::lost(Error error) {
  const std::lock_guard lock(mutex_);
  view_.connected_since.reset();
  view_.last_error = std::move(error);
  wake_.notify_all();
}

void BrokerFollower::stored(const std::string& device, const RunPosition& position) {
  const std::lock_guard lock(mutex_);
  kept_[device] = position;
  wake_.notify_all();
}

BrokerView BrokerFollower::view() const {
  const std::lock_guard lock(mutex_);
  return view_;
}

MachineFeedView BrokerFollower::view(std::string_view device) const {
  const std::lock_guard lock(mutex_);
  return state_.view(device);
}

}  // namespace hw::feeds
