#include "src/simulate/message_publisher.h"

#include <algorithm>
#include <chrono>

namespace hw::simulate {

MessagePublisher::MessagePublisher(std::unique_ptr<Source> source, PublisherOptions options)
    : source_(std::move(source)),
      options_(std::move(options)),
      outbox_(source_->machines(), options_.outbox),
      last_said_(source_->machines().size()),
      client_(options_.broker, {},
              {[this](const mqtt::Message& message) {
                 const std::lock_guard lock(mutex_);
                 outbox_.hear(message.topic, message.payload);
               },
               [](const std::string&) {}}) {
  if (!options_.clock) options_.clock = now;
  thread_ = std::thread([this] { run(); });
}

MessagePublisher::~MessagePublisher() {
  stop_.cancel();
  thread_.join();
}

void MessagePublisher::run() {
  const auto tick = std::chrono::nanoseconds(options_.tick.ns);
  while (!stop_.cancelled()) {
    make_messages();
    if (client_.is_connected() || connect()) send();
    std::this_thread::sleep_for(tick);
  }
  client_.disconnect();
}

bool MessagePublisher::connect() {
  const std::vector<std::string> filters = outbox_.topic_filters();
  if (!client_.connect() || !client_.subscribe(filters)) return false;
  for (const auto& model : outbox_.models()) (void)client_.publish(model.topic, model.payload, mqtt::Retained::yes);
  const std::lock_guard lock(mutex_);
  outbox_.begin_session();
  return true;
}

// A message of each machine that said something, and now and then of one that did not: the sign of life.
void MessagePublisher::make_messages() {
  const Instant present = options_.clock();
  std::vector<Arrival> arrivals;
  if (!has_begun_) source_->take_standing(arrivals);  // a run begins with every value
  has_begun_ = true;
  source_->take(present, arrivals);
  const Instant alive_at = source_->taken_until(present);
  std::vector<std::vector<Event>> events(last_said_.size());
  for (const Arrival& arrival : arrivals) events[arrival.machine].push_back(arrival.event);
  const std::lock_guard lock(mutex_);
  for (std::size_t m = 0; m < events.size(); ++m) {
    const bool is_due = present - last_said_[m] >= options_.message_every;
    if (events[m].empty() && !is_due) continue;
    outbox_.add(m, events[m], alive_at);
    last_said_[m] = present;
  }
  told_until_ = std::all_of(last_said_.begin(), last_said_.end(), [&](Instant said) { return said == present; })
                    ? alive_at
                    : told_until_;
}

void MessagePublisher::send() {
  std::vector<feeds::Publication> messages;
  {
    const std::lock_guard lock(mutex_);
    messages = outbox_.take_unsent(options_.messages_max);
  }
  disturb(messages);
  for (const auto& message : messages) {
    // What is not taken is wanted again, or sent again with the next connection.
    (void)client_.publish(message.topic, message.payload, mqtt::Retained::no);
  }
}

void MessagePublisher::disturb(std::vector<feeds::Publication>& messages) {
  const SendFaults& faults = options_.faults;
  const auto is_nth = [&](unsigned every) {
    return every != 0 && sent_ < faults.messages && sent_ % every == every - 1;
  };
  std::vector<feeds::Publication> out;
  for (feeds::Publication& message : messages) {
    const bool is_first = out.empty();
    if (!is_nth(faults.drop_every)) out.push_back(message);
    if (is_nth(faults.repeat_every)) out.push_back(message);
    if (is_nth(faults.swap_every) && !is_first && out.size() > 1) std::swap(out[out.size() - 1], out[out.size() - 2]);
    ++sent_;
  }
  messages = std::move(out);
}

std::size_t MessagePublisher::kept() const {
  const std::lock_guard lock(mutex_);
  return outbox_.kept();
}

Instant MessagePublisher::told_until() const {
  const std::lock_guard lock(mutex_);
  return told_until_;
}

}  // namespace hw::simulate
