#include "src/due/round_turns.h"

#include <algorithm>
#include <numeric>
#include <set>

#include "libs/values/assert.h"

namespace hw::due {
namespace {

using catalogue::PlantCalendar;
using catalogue::Rhythm;
using catalogue::ShiftTurn;

LocalDate monday_of(LocalDate day) { return day - (iso_weekday(day) - 1); }

std::vector<RoundTurn> day_turn(const PlantCalendar& calendar, LocalDate day) {
  if (!calendar.works_on(day)) return {};
  RoundTurn turn = day_of(calendar, day);
  const auto shifts = calendar.turns_on(day);
  if (!shifts.empty()) {
    turn.begins_at = shifts.front().begins_at;
    const auto ends_earlier = [](const ShiftTurn& a, const ShiftTurn& b) { return a.ends_at < b.ends_at; };
    turn.ends_at = std::max_element(shifts.begin(), shifts.end(), ends_earlier)->ends_at;
  }
  return {turn};
}

std::vector<RoundTurn> shift_turns(const PlantCalendar& calendar, LocalDate day) {
  if (calendar.shifts.empty()) return day_turn(calendar, day);
  std::vector<RoundTurn> turns;
  for (const ShiftTurn& turn : calendar.turns_on(day)) {
    turns.push_back({.on = day, .shift = turn.shift->name, .begins_at = turn.begins_at, .ends_at = turn.ends_at});
  }
  return turns;
}

// Found on Mondays only; `on` is the week's first working day.
std::vector<RoundTurn> week_turn(const PlantCalendar& calendar, LocalDate day) {
  std::vector<RoundTurn> week;
  for (int i = 0; i < 7 && day == monday_of(day); ++i) {
    for (const RoundTurn& turn : day_turn(calendar, day + i)) {
      if (week.empty()) week.push_back(turn);
      week.front().ends_at = turn.ends_at;
    }
  }
  return week;
}

std::vector<RoundTurn> turns_on(Rhythm rhythm, const PlantCalendar& calendar, LocalDate day) {
  switch (rhythm) {
    case Rhythm::shift:
      return shift_turns(calendar, day);
    case Rhythm::day:
      return day_turn(calendar, day);
    case Rhythm::week:
      return week_turn(calendar, day);
    case Rhythm::before_start_up:
      return {};
  }
  HW_ASSERT(false, "every rhythm has its turns");
}

bool takes(const RoundTurn& turn, Instant begun_at, Duration early) {
  return begun_at >= turn.begins_at - early && begun_at < turn.ends_at;
}

// The turn that a walk belongs to: of those that take it the first that nobody walked, else the first.
TurnStanding* find_turn(std::vector<TurnStanding>& turns, const RoundWalk& walk, Duration early) {
  TurnStanding* found = nullptr;
  for (TurnStanding& one : turns) {
    if (!takes(one.turn, walk.begins_at, early)) continue;
    if (one.state != TurnState::walked) return &one;
    if (!found) found = &one;
  }
  return found;
}

using Answered = std::set<std::string_view>;

// Together the answers cover what one of the walks set out to answer.
bool are_whole(const std::vector<RoundWalk>& walks, const std::vector<std::size_t>& some) {
  Answered answered;
  for (const std::size_t i : some) answered.insert(walks[i].answered.begin(), walks[i].answered.end());
  return std::any_of(some.begin(), some.end(), [&](std::size_t i) {
    const auto& checks = walks[i].checks;
    return !checks.empty() &&
           std::all_of(checks.begin(), checks.end(), [&](const auto& one) { return answered.contains(one); });
  });
}

void assign(std::vector<TurnStanding>& turns, const std::vector<RoundWalk>& walks, std::size_t index) {
  const RoundWalk& walk = walks[index];
  TurnStanding* turn = find_turn(turns, walk, Duration{});
  if (!turn) turn = find_turn(turns, walk, early_max);
  if (!turn) return;
  turn->walks.push_back(index);
  if (are_whole(walks, turn->walks)) turn->state = TurnState::walked;
}

TurnState state_of(const TurnStanding& standing, Instant now) {
  if (standing.state == TurnState::walked) return TurnState::walked;
  if (now < standing.turn.begins_at) return TurnState::ahead;
  if (now < standing.turn.ends_at) return TurnState::open;
  return standing.walks.empty() ? TurnState::missed : TurnState::half_walked;
}

// Whole walks first, so that a half walked one never takes a turn from them; then by their beginning.
std::vector<std::size_t> in_order(const std::vector<RoundWalk>& walks) {
  std::vector<std::size_t> order(walks.size());
  std::iota(order.begin(), order.end(), 0);
  const auto rank = [&](std::size_t i) { return std::pair{!are_whole(walks, {i}), walks[i].begins_at}; };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
  return order;
}

}  // namespace

std::string_view word_of(TurnState state) {
  switch (state) {
    case TurnState::ahead:
      return "ahead";
    case TurnState::open:
      return "open";
    case TurnState::walked:
      return "walked";
    case TurnState::half_walked:
      return "half walked";
    case TurnState::missed:
      return "missed";
  }
  HW_ASSERT(false, "every state has a word");
}

std::vector<RoundTurn> turns_of(Rhythm rhythm, const PlantCalendar& calendar, TimeSpan span) {
  std::vector<RoundTurn> turns;
  const LocalDate last = calendar.zone.date_of(span.ends_at);
  for (LocalDate day = monday_of(calendar.zone.date_of(span.begins_at)); day <= last; ++day) {
    for (RoundTurn& turn : turns_on(rhythm, calendar, day)) {
      if (turn.begins_at >= span.begins_at && turn.begins_at < span.ends_at) turns.push_back(std::move(turn));
    }
  }
  return turns;
}

RoundTurn day_of(const PlantCalendar& calendar, LocalDate day) {
  return {.on = day, .shift = "", .begins_at = calendar.zone.begin_of(day), .ends_at = calendar.zone.end_of(day)};
}

std::vector<TurnStanding> standings(const std::vector<RoundTurn>& turns, const std::vector<RoundWalk>& walks,
                                    Instant now) {
  std::vector<TurnStanding> out;
  out.reserve(turns.size());
  for (const RoundTurn& turn : turns) out.push_back({.turn = turn, .state = TurnState::ahead, .walks = {}});
  for (const std::size_t walk : in_order(walks)) assign(out, walks, walk);
  for (TurnStanding& one : out) {
    one.state = state_of(one, now);
    std::stable_sort(one.walks.begin(), one.walks.end(),
                     [&](std::size_t a, std::size_t b) { return walks[a].begins_at < walks[b].begins_at; });
  }
  return out;
}

}  // namespace hw::due
