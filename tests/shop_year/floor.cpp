#include "tests/shop_year/floor.h"

#include <algorithm>

namespace hw::shop_year {
namespace {

constexpr std::uint64_t buffered_max = 12;
constexpr Duration ahead_max = Duration::seconds(900);

// Hours of [from, to) that lie in no unknown time; those do not overlap.
double known_h(Instant from, Instant to, const std::vector<Unknown>& unknown) {
  double hours = std::max(0.0, (to - from).as_hours());
  for (const Unknown& gap : unknown) {
    hours -= std::max(0.0, (std::min(to, gap.to) - std::max(from, gap.from)).as_hours());
  }
  return hours;
}

}  // namespace

void Floor::turn(const std::string& machine, char mark, Instant at) {
  turns_.push_back({machine, mark, at, instance_, next_sequence_++});
}

void Floor::agent_begins_anew(Instant at) {
  ++instance_;
  next_sequence_ = 1;
  for (const std::string& machine : machines) turn(machine, mark_at(machine, at), at);
}

char Floor::mark_at(const std::string& machine, Instant at) const {
  char mark = '?';
  for (const Turn& one : turns_) {
    if (one.machine == machine && one.at <= at) mark = one.mark;
  }
  return mark;
}

bool Floor::remembers(const feeds::Position& position) const {
  return position.instance_id == instance_ && position.next_sequence + buffered_max >= next_sequence_;
}

void Floor::tell_gap(feeds::Batch& batch, Instant from, Instant to) const {
  for (const std::string& machine : machines) {
    auto observations = shop::state_at('?', from);
    for (const auto& one : shop::state_at(mark_at(machine, to), to)) observations.push_back(one);
    batch.machines.push_back({machine, std::move(observations), {}});
    batch.interruptions.push_back({machine, from, to, "lost"});
  }
}

void Floor::tell_rest(feeds::Batch& batch, Heard& heard, Instant now) const {
  for (const Turn& one : turns_) {
    if (one.instance != instance_ || one.sequence < heard.position.next_sequence) continue;
    const bool is_ahead = one.at > now;
    const Instant at = one.at > now + ahead_max ? now : one.at;  // as feeds do
    heard.is_exact = heard.is_exact && !is_ahead;
    batch.machines.push_back({one.machine, shop::state_at(one.mark, at), {}});
  }
}

feeds::Batch Floor::answer(Heard& heard, Instant at, Instant now) const {
  feeds::Batch batch;
  batch.feed = "feed-1";
  if (remembers(heard.position)) {
    tell_rest(batch, heard, now);
  } else {
    const Instant to = std::max(heard.alive_at, std::min(at, now));
    tell_gap(batch, heard.alive_at, to);
    heard.unknown.push_back({heard.alive_at, to});
    heard.is_exact = heard.is_exact && now >= at;
  }
  heard.position = {instance_, next_sequence_};
  heard.alive_at = std::max(heard.alive_at, std::min(at, now));
  batch.position = heard.position;
  batch.received_at = now;
  batch.alive_at = heard.alive_at;
  return batch;
}

double Floor::hours(const std::string& machine, std::string_view marks, Instant until, const Heard& heard) const {
  double hours = 0;
  Instant since = begins_at_;
  char mark = '?';
  const auto add = [&](Instant to) {
    if (marks.find(mark) != std::string_view::npos) hours += known_h(since, std::min(to, until), heard.unknown);
    since = to;
  };
  for (const Turn& one : turns_) {
    if (one.machine != machine || one.at >= until) continue;
    add(one.at);
    mark = one.mark;
  }
  add(until);
  return hours;
}

double Floor::unknown_h(const std::string& machine, Instant until, const Heard& heard) const {
  return (until - begins_at_).as_hours() - hours(machine, "#S.o", until, heard);
}

}  // namespace hw::shop_year
