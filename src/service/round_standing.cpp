#include "src/service/round_standing.h"

#include <algorithm>
#include <set>
#include <tuple>

namespace hw::service {
namespace {

using catalogue::Rhythm;
using due::RoundTurn;
using due::TurnStanding;
using due::TurnState;

std::vector<catalogue::Task> tasks_of(const OpenMachine& machine) {
  std::vector<catalogue::Task> tasks;
  for (const TaskRecord& record : machine.record.tasks) {
    if (!record.retired_at) tasks.push_back(record.task);
  }
  return tasks;
}

// When the round came to be: when the first of its tasks did.
Instant begin_of_round(const OpenMachine& machine, Rhythm rhythm, Instant now) {
  Instant first = now;
  for (const TaskRecord& record : machine.record.tasks) {
    if (!record.retired_at && catalogue::rhythm_of(record.task) == rhythm) first = std::min(first, record.began_at);
  }
  return first;
}

std::vector<RoundTurn> turns_before(const catalogue::PlantCalendar& calendar, Rhythm rhythm, Instant now) {
  if (rhythm != Rhythm::before_start_up) {
    return due::turns_of(rhythm, calendar, {now - walks_kept, now + due::early_max});
  }
  const LocalDate today = calendar.zone.date_of(now);
  return {due::day_of(calendar, today - 1), due::day_of(calendar, today)};
}

due::RoundWalk walk_of(const WalkRecord& record) {
  due::RoundWalk walk{.begins_at = record.begun_at, .checks = record.checks, .answered = {}};
  for (const AnswerRecord& one : record.answers) walk.answered.push_back(one.answer.check);
  return walk;
}

// In order of time, whatever the order in which they arrived.
std::vector<const WalkRecord*> walks_of(const std::vector<WalkRecord>& all, Rhythm rhythm) {
  std::vector<const WalkRecord*> walks;
  for (const WalkRecord& walk : all) {
    if (walk.rhythm == word_of(rhythm)) walks.push_back(&walk);
  }
  std::sort(walks.begin(), walks.end(), [](const WalkRecord* a, const WalkRecord* b) {
    return std::tie(a->begun_at, a->walk) < std::tie(b->begun_at, b->walk);
  });
  return walks;
}

std::vector<due::RoundWalk> begun(const std::vector<const WalkRecord*>& records) {
  std::vector<due::RoundWalk> walks;
  for (const WalkRecord* record : records) walks.push_back(walk_of(*record));
  return walks;
}

bool runs(const RoundTurn& turn, Instant now) { return turn.begins_at <= now && now < turn.ends_at; }

// Of turns that run at once the first that is not walked, else the last; where none runs, the one that comes next.
std::optional<std::size_t> turn_now(const std::vector<TurnStanding>& turns, Instant now) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < turns.size(); ++i) {
    if (runs(turns[i].turn, now)) found = i;
    if (found == i && turns[i].state == TurnState::open) return found;
  }
  for (std::size_t i = 0; i < turns.size() && !found; ++i) {
    if (turns[i].turn.begins_at > now) found = i;
  }
  return found;
}

}  // namespace

std::vector<catalogue::Round> rounds_of(const OpenMachine& machine) {
  return catalogue::rounds_of(machine.record.machine.key, tasks_of(machine), walk_of(machine.record));
}

std::vector<Rhythm> rhythms_of(const OpenMachine& machine) {
  std::set<Rhythm> rhythms;
  for (const TaskRecord& record : machine.record.tasks) {
    const auto rhythm = record.retired_at ? std::nullopt : catalogue::rhythm_of(record.task);
    if (rhythm) rhythms.insert(*rhythm);
  }
  return {rhythms.begin(), rhythms.end()};
}

std::vector<const WalkRecord*> RoundStanding::walks_of(const TurnStanding& turn) const {
  std::vector<const WalkRecord*> out;
  for (const std::size_t place : turn.walks) out.push_back(walks[place]);
  return out;
}

RoundStanding round_standing(const catalogue::PlantCalendar& calendar, const OpenMachine& machine, Rhythm rhythm,
                             Instant now) {
  RoundStanding out{.walks = walks_of(machine.walks, rhythm), .turns = {}, .now = {}};
  out.turns = due::standings(turns_before(calendar, rhythm, now), begun(out.walks), now);
  const Instant begin = begin_of_round(machine, rhythm, now);
  std::erase_if(out.turns, [&](const TurnStanding& one) {
    return one.turn.begins_at < begin && one.walks.empty() && !runs(one.turn, now);
  });
  out.now = turn_now(out.turns, now);
  return out;
}

std::vector<TurnStanding> turns_within(const catalogue::PlantCalendar& calendar, const OpenMachine& machine,
                                       Rhythm rhythm, const std::vector<WalkRecord>& walks, due::TimeSpan span,
                                       Instant now) {
  if (rhythm == Rhythm::before_start_up) return {};
  span.begins_at = std::max(span.begins_at, begin_of_round(machine, rhythm, now));
  if (span.begins_at >= span.ends_at) return {};
  return due::standings(due::turns_of(rhythm, calendar, span), begun(walks_of(walks, rhythm)), now);
}

}  // namespace hw::service
