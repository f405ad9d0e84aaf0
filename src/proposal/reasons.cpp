#include "src/proposal/reasons.h"

#include <algorithm>
#include <cmath>

#include "src/proposal/cost_growth.h"
#include "src/proposal/crew_tables.h"

namespace hw::proposal {
namespace {

constexpr double chance_worth_saying = 0.05;

// The difference with what it is about, looked up once.
struct Because {
  const ShopAhead& shop;
  const StopInstance& made;
  const Difference& difference;
  const FirstTurns& now;
  const std::vector<std::string>& visited_too;
  const MachineAhead& machine;
  const plan::Machine& planned;
  std::vector<const TaskAhead*> tasks;  // those that need the machine at rest
};

int percent(double chance) { return static_cast<int>(std::lround(100 * chance)); }

std::optional<LocalDate> median_of(const TaskAhead& task) { return due::quantile(task.due, 0.5); }

void say_what_is_shared(std::vector<Sentence>& says, const Because& why) {
  const auto count = why.tasks.size();
  if (count < 2) return;
  const bool is_locked = why.difference.state == plan::EnergyState::locked;
  says.push_back(sentence({is_locked ? "one-isolation" : "one-shut-down", {}, {{"count", static_cast<double>(count)}}},
                          "{} tasks share one {}", count, is_locked ? "isolation" : "time at rest"));
}

void say_which_visit_is_shared(std::vector<Sentence>& says, const Because& why) {
  if (why.visited_too.empty()) return;
  const std::string machines = fmt::format("{}", fmt::join(why.visited_too, ", "));
  says.push_back(
      sentence({"visit-shared", {{"machines", machines}}}, "one visit of the outside service, with {}", machines));
}

void say_that_standing_is_free(std::vector<Sentence>& says, const Because& why) {
  const LocalDate on = why.difference.to->on;
  const auto shift = why.made.slots.shift_of(on, why.difference.to->shift);
  if (!shift || why.made.slots.works(why.made.slots.day_of(on), *shift)) return;
  says.push_back(sentence({"standing-free", {{"date", print(on)}}}, "on {} standing costs nothing", print(on)));
}

// How much less likely a task is due before its stop than by what would be done otherwise.
struct Fall {
  const TaskAhead* task = nullptr;
  double from = 0;
  double to = 0;
};

Fall greatest_fall(const Because& why) {
  Fall greatest;
  for (const TaskAhead* task : why.tasks) {
    const auto turn = why.now.find({why.difference.machine, task->task.key});
    if (turn == why.now.end() || !turn->second.slot) continue;
    const LocalDate by_rule = why.made.slots.date_of(turn->second.slot->day);
    const Fall fall{task, due::chance_by(task->due, by_rule - 1), due::chance_by(task->due, why.difference.to->on - 1)};
    if (fall.from - fall.to > greatest.from - greatest.to) greatest = fall;
  }
  return greatest;
}

void say_what_gets_safer(std::vector<Sentence>& says, const Because& why) {
  const Fall fall = greatest_fall(why);
  if (fall.from - fall.to < chance_worth_saying) return;
  const auto median = median_of(*fall.task);
  if (!median) return;
  const int days = *median - why.difference.to->on;
  const std::string& title = fall.task->task.title;
  if (days > 0) {
    says.push_back(
        sentence({"before-median",
                  {{"title", title}},
                  {{"days", double(days)}, {"from", double(percent(fall.from))}, {"to", double(percent(fall.to))}}},
                 "\"{}\" {} d before its median: the chance that it is due earlier falls from {} % to {} %", title,
                 days, percent(fall.from), percent(fall.to)));
    return;
  }
  says.push_back(sentence(
      {"chance-falls", {{"title", title}}, {{"from", double(percent(fall.from))}, {"to", double(percent(fall.to))}}},
      "the chance that \"{}\" is due earlier falls from {} % to {} %", title, percent(fall.from), percent(fall.to)));
}

// What is done later than by the rule uses more of its interval.
void say_what_is_used_up(std::vector<Sentence>& says, const Because& why) {
  int most = 0;
  const TaskAhead* latest = nullptr;
  for (const TaskAhead* task : why.tasks) {
    const auto turn = why.now.find({why.difference.machine, task->task.key});
    if (turn == why.now.end() || !turn->second.slot) continue;
    const int later = why.made.slots.day_of(why.difference.to->on) - turn->second.slot->day;
    if (later <= most) continue;
    most = later;
    latest = task;
  }
  if (!latest) return;
  says.push_back(sentence({"later-than-rule", {{"title", latest->task.title}}, {{"days", double(most)}}},
                          "\"{}\" {} d later than by the rule: more of its interval is used", latest->task.title,
                          most));
}

void say_what_must_not_wait(std::vector<Sentence>& says, const Because& why) {
  for (const TaskAhead* task : why.tasks) {
    if (!guards_people(task->task)) continue;
    says.push_back(sentence({"guards-people", {{"title", task->task.title}}},
                            "\"{}\" is on what guards people: no lateness is planned", task->task.title));
    return;
  }
}

void say_what_waits_for_parts(std::vector<Sentence>& says, const Because& why) {
  for (const catalogue::PartsAwaited& parts : why.shop.stopping.parts_awaited) {
    for (const TaskAhead* task : why.tasks) {
      if (parts.machine != why.difference.machine || parts.task != task->task.key || parts.on <= why.shop.today)
        continue;
      says.push_back(sentence({"after-parts", {{"title", task->task.title}, {"date", print(parts.on)}}},
                              "after {}, when the parts for \"{}\" are there", print(parts.on), task->task.title));
      return;
    }
  }
}

// The days on which the tasks would be due by their medians.
std::vector<LocalDate> due_days(const Because& why) {
  std::vector<LocalDate> days;
  for (const TaskAhead* task : why.tasks) {
    const auto median = median_of(*task);
    if (median && *median >= why.shop.today) days.push_back(*median);
  }
  return days;
}

bool lies_in(const std::vector<LocalDate>& days, LocalDate first, LocalDate last) {
  return std::any_of(days.begin(), days.end(), [&](LocalDate day) { return first <= day && day <= last; });
}

void say_what_is_held(std::vector<Sentence>& says, const Because& why) {
  for (const catalogue::Blackout& one : why.shop.stopping.blackouts) {
    const bool is_of_it = one.machine ? *one.machine == why.machine.key : *one.cell == why.machine.cell;
    if (!is_of_it || !lies_in(due_days(why), one.from, one.until)) continue;
    says.push_back(sentence({"around-hold", {{"from", print(one.from)}, {"until", print(one.until)}, {"why", one.why}}},
                            "the machine must not stand from {} to {}: {}", print(one.from), print(one.until),
                            one.why));
    return;
  }
}

Sentence away_sentence(const catalogue::Absence& absence) {
  const std::string until = print(absence.until);
  if (absence.person) {
    return sentence({"person-away", {{"person", *absence.person}, {"until", until}, {"why", absence.why}}},
                    "{} is away until {}: {}", *absence.person, until, absence.why);
  }
  const std::string skill{word_of(*absence.skill)};
  return sentence({"crew-away", {{"skill", skill}, {"until", until}, {"why", absence.why}}},
                  "{}: nobody is there until {}: {}", skill, until, absence.why);
}

void say_who_is_away(std::vector<Sentence>& says, const Because& why) {
  for (const LocalDate day : due_days(why)) {
    for (const TaskAhead* task : why.tasks) {
      for (const catalogue::Absence* absence : absences_on(why.shop, task->task.skill, day)) {
        says.push_back(away_sentence(*absence));
        return;
      }
    }
  }
}

void say_what_is_closed(std::vector<Sentence>& says, const Because& why) {
  for (const catalogue::ClosedDay& closed : why.shop.calendar.closed) {
    if (!lies_in(due_days(why), closed.on, closed.on)) continue;
    says.push_back(sentence({"due-when-closed", {{"date", print(closed.on)}, {"why", closed.why}}},
                            "the plant is closed on {}, when a task of it is due: {}", print(closed.on), closed.why));
    return;
  }
}

template <class Things, class KeyOf>
const auto* found(const Things& things, const std::string& key, KeyOf key_of) {
  const auto there = std::find_if(things.begin(), things.end(), [&](const auto& one) { return key_of(one) == key; });
  return there == things.end() ? nullptr : &*there;
}

}  // namespace

std::vector<Sentence> reasons_for(const ShopAhead& shop, const StopInstance& made, const Difference& difference,
                                  const FirstTurns& now, const std::vector<std::string>& visited_too) {
  const auto* machine = found(shop.machines, difference.machine, [](const auto& one) { return one.key; });
  const auto* planned = found(made.instance.machines, difference.machine, [](const auto& one) { return one.id; });
  if (!machine || !planned || !difference.to) return {};
  Because why{shop, made, difference, now, visited_too, *machine, *planned, {}};
  for (const std::string& key : difference.tasks) {
    const auto* task = found(machine->tasks, key, [](const auto& one) { return one.task.key; });
    if (task && task->task.energy != catalogue::EnergyState::in_production) why.tasks.push_back(task);
  }
  std::vector<Sentence> says;
  for (const auto say : {say_what_must_not_wait, say_which_visit_is_shared, say_what_is_shared,
                         say_that_standing_is_free, say_what_waits_for_parts, say_what_is_held, say_who_is_away,
                         say_what_is_closed, say_what_gets_safer, say_what_is_used_up}) {
    if (says.size() < reasons_max) say(says, why);
  }
  return says;
}

}  // namespace hw::proposal
