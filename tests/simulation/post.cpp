#include "tests/simulation/post.h"

#include <algorithm>
#include <map>
#include <random>

namespace hw::simulation {
namespace {

// What is heard within a minute has the counters of its hearing; so a message is at once there or later than that.
constexpr Duration late_min = Duration::seconds(61);

class Wifi {
 public:
  Wifi(const DayPlan& plan, std::uint64_t seed) : plan_(plan), random_(seed), reached_at_(phones, plan.begins_at) {}

  std::vector<Message> carry() && {
    for (std::size_t act = 0; act < plan_.acts.size(); ++act) {
      const Instant first = after_its_finding(plan_.acts[act], sent_at(plan_.acts[act]));
      messages_.push_back({act, first});
      if (between(1, 100) <= 30) repeat(act, first);
    }
    std::stable_sort(messages_.begin(), messages_.end(),
                     [](const auto& a, const auto& b) { return a.arrives_at < b.arrives_at; });
    return std::move(messages_);
  }

 private:
  std::int64_t between(std::int64_t min, std::int64_t max) {
    return std::uniform_int_distribution<std::int64_t>(min, max)(random_);
  }

  // In the phone's order, as soon as it is in reach; one in ten gets by others of the same phone.
  Instant sent_at(const Act& act) {
    Instant& reached_at = reached_at_[act.phone];
    if (act.at > reached_at && between(1, 100) <= 20) reached_at = act.at + Duration::seconds(between(60, 14'400));
    const bool waits = reached_at > act.at;
    reached_at = waits ? std::max(reached_at + Duration::millis(between(1, 1500)), act.at + late_min) : act.at;
    return between(1, 100) <= 10 ? reached_at + late_min + Duration::seconds(between(0, 7200)) : reached_at;
  }

  // Whoever follows up a finding has it from the server, or made it on the same phone, which sends in order.
  Instant after_its_finding(const Act& act, Instant sent) {
    if (std::holds_alternative<MakeFinding>(act.what)) made_at_[act.id] = sent;
    const auto finding = followed_finding(act);
    if (!finding || sent > made_at_.at(*finding)) return sent;
    return std::max(made_at_.at(*finding) + Duration::millis(1), act.at + late_min);
  }

  void repeat(std::size_t act, Instant first) {
    const auto times = between(1, 3);
    for (int i = 0; i < times; ++i) {
      const Instant again = first + Duration::seconds(between(0, 20'000));
      messages_.push_back({act, std::min(again, plan_.ends_at)});
    }
  }

  const DayPlan& plan_;
  std::mt19937_64 random_;
  std::vector<Instant> reached_at_;         // of each phone: when the one before got through
  std::map<std::string, Instant> made_at_;  // when the server heard of each finding
  std::vector<Message> messages_;
};

}  // namespace

std::vector<Message> in_time(const DayPlan& plan) {
  std::vector<Message> messages;
  for (std::size_t act = 0; act < plan.acts.size(); ++act) messages.push_back({act, plan.acts[act].at});
  return messages;
}

std::vector<Message> by_bad_wifi(const DayPlan& plan, std::uint64_t seed) { return Wifi(plan, seed).carry(); }

}  // namespace hw::simulation
