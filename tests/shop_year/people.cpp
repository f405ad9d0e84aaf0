#include "tests/shop_year/people.h"

#include <array>

#include "tests/shop/walking.h"
#include "tests/shop_year/floor.h"

namespace hw::shop_year {

std::string People::new_id() { return fmt::format("01941f29-7c00-7aaa-8bbb-{:012}", ++last_id_); }
std::string People::any_machine() { return chance_.one_of(machines); }

// One in thirty is not there.
std::string People::any_task(const std::string& machine) {
  if (chance_.percent(3)) return "gone";
  if (chance_.percent(60)) return chance_.percent(60) ? "filter" : "grease";
  std::vector<std::string> keys;
  for (const auto& [place, task] : books_.tasks()) {
    if (place.first == machine && task.is_own) keys.push_back(place.second);
  }
  return keys.empty() ? "filter" : chance_.one_of(keys);
}

std::optional<std::string> People::any_finding() {
  if (books_.findings().empty()) return std::nullopt;
  return chance_.one_of(books_.findings()).first;
}

// The agreed ones more often.
std::optional<std::string> People::any_stop() {
  std::vector<std::string> agreed;
  for (const auto& [id, stop] : books_.stops()) {
    if (books_.stop_now(id).state == "agreed") agreed.push_back(id);
  }
  if (!agreed.empty() && chance_.percent(85)) return chance_.one_of(agreed);
  if (books_.stops().empty()) return std::nullopt;
  return chance_.one_of(books_.stops()).first;
}

std::string People::any_part() { return fmt::format("P-{}", chance_.between(1, 4)); }

What People::walk() {
  walk_at_ = any_machine();
  return BeginWalk{walk_at_};
}

What People::answer() {
  if (walk_.empty()) return walk();
  const std::vector<std::pair<std::string, std::string>> checks{
      {"look", "look"}, {"window", "clean"}, {"coolant", "top up"}};
  AnswerChecks said{walk_at_, walk_, chance_.percent(20), {}};
  if (said.others) {
    for (const auto& [check, kind] : checks) said.answers.push_back(shop::good(check, kind));
    return said;
  }
  if (chance_.percent(40)) {
    const double bar = static_cast<double>(chance_.between(45, 75)) / 10;
    said.answers.push_back(shop::read("air/supply air", bar, chance_.percent(5) ? "kg" : "bar"));
  } else if (chance_.percent(8)) {
    said.answers.push_back(shop::good("gone"));
  } else {
    const auto& [check, kind] = chance_.one_of(checks);
    said.answers.push_back(chance_.percent(75) ? shop::good(check, kind) : shop::bad(check, kind));
  }
  return said;
}

What People::mark() {
  const std::string machine = any_machine();
  MarkDone done{machine, any_task(machine)};
  if (chance_.percent(20)) done.note = "it was dirty";
  return done;
}

What People::correct() {
  if (books_.entries().empty()) return mark();
  return CorrectEntry{chance_.one_of(books_.entries()).first};
}

What People::read() { return ReadHours{any_machine(), static_cast<double>(chance_.between(0, 4000))}; }

What People::find() {
  MakeFinding found{any_machine(), static_cast<service::Severity>(chance_.between(0, 3))};
  if (chance_.percent(40)) found.owner = "Bo";
  if (chance_.percent(30)) found.task = any_task(found.machine);
  return found;
}

What People::change_finding() {
  const auto finding = any_finding();
  if (!finding) return find();
  ChangeFinding change{*finding};
  if (chance_.percent(50)) change.severity = static_cast<service::Severity>(chance_.between(0, 3));
  if (chance_.percent(50)) change.owner = chance_.percent(30) ? "" : "Cy";
  if (chance_.percent(20)) change.task = chance_.percent(30) ? "" : any_task(books_.findings().at(*finding).machine);
  return change;
}

What People::settle() {
  const auto finding = any_finding();
  if (!finding) return find();
  if (chance_.percent(25)) return ReopenFinding{*finding};
  return SettleFinding{*finding};
}

What People::task() {
  const std::string machine = any_machine();
  const auto hours = static_cast<double>(chance_.between(5, 60));
  const std::string key = any_task(machine);
  const auto there = books_.tasks().find({machine, key});
  if (there == books_.tasks().end() || !there->second.is_own || chance_.percent(30)) return AddTask{machine, hours};
  if (chance_.percent(30)) return RetireTask{machine, key};
  return ChangeTask{machine, key, there->second.version - (chance_.percent(10) ? 1 : 0), hours};
}

What People::agree() {
  AgreeStop agree{any_machine(), today_ + static_cast<int>(chance_.between(-1, 9)), {}};
  agree.tasks.push_back(any_task(agree.machine));
  const std::string other = any_task(agree.machine);
  if (other != agree.tasks.front()) agree.tasks.push_back(other);
  return agree;
}

What People::change_stop() {
  const auto stop = any_stop();
  if (!stop) return agree();
  ChangeStop change{*stop, books_.stop_now(*stop).version - (chance_.percent(10) ? 1 : 0)};
  if (chance_.percent(60)) change.on = today_ + static_cast<int>(chance_.between(-1, 9));
  if (chance_.percent(40)) change.tasks = std::vector{any_task(books_.stops().at(*stop).machine)};
  return change;
}

What People::end_stop() {
  const auto stop = any_stop();
  if (!stop) return agree();
  if (chance_.percent(25)) return WithdrawStop{*stop};
  const StopNow is = books_.stop_now(*stop);
  CloseStop close{*stop, is.version - (chance_.percent(10) ? 1 : 0), {}};
  for (const std::string& task : is.tasks) {
    if (chance_.percent(70)) close.done.push_back({new_id(), task});
  }
  if (chance_.percent(40)) {
    const std::string id = new_id();
    close.used = UsedInStop{id, any_part(), static_cast<double>(chance_.between(0, 4))};
  }
  return close;
}

What People::keep_part() {
  const std::string number = any_part();
  const auto there = books_.parts().find(number);
  KeepPart keep{number, {}, static_cast<double>(chance_.between(1, 90))};
  if (there != books_.parts().end()) keep.version = there->second - (chance_.percent(10) ? 1 : 0);
  return keep;
}

What People::move() {
  MoveStock move{static_cast<kits::MovementKind>(chance_.between(0, 4)), any_part(), amount()};
  const bool is_kit = move.kind == kits::MovementKind::taken || move.kind == kits::MovementKind::returned;
  if (is_kit && chance_.percent(60)) move.stop = any_stop();
  if (move.kind != kits::MovementKind::received || books_.orders().empty() || chance_.percent(30)) return move;
  const auto& [id, order] = chance_.one_of(books_.orders());
  move.order = id;
  if (chance_.percent(90)) move.part = order.part;
  move.more_than_ordered = chance_.percent(20);
  return move;
}

What People::order() {
  if (books_.orders().empty() || chance_.percent(60)) return PlaceOrder{any_part(), amount()};
  ChangeOrder change{chance_.one_of(books_.orders()).first};
  change.ended = chance_.percent(40);
  if (!change.ended) change.confirmed_on = today_ + 5;
  return change;
}

Act People::act(const std::string& by, Instant at, LocalDate today) {
  today_ = today;
  static constexpr std::array<Made, 26> made{
      &People::walk,        &People::walk,     &People::answer,    &People::answer,         &People::answer,
      &People::answer,      &People::mark,     &People::mark,      &People::mark,           &People::mark,
      &People::correct,     &People::read,     &People::find,      &People::change_finding, &People::change_finding,
      &People::settle,      &People::task,     &People::task,      &People::agree,          &People::agree,
      &People::change_stop, &People::end_stop, &People::keep_part, &People::move,           &People::move,
      &People::order};
  What what = (this->*made[static_cast<std::size_t>(chance_.between(0, made.size() - 1))])();
  Act act{new_id(), by, at, std::move(what)};
  if (std::holds_alternative<BeginWalk>(act.what)) walk_ = act.id;
  return act;
}

Act People::undoing(const Act& done, Instant at) { return {new_id(), done.by, at, Undo{done.id}}; }

}  // namespace hw::shop_year
