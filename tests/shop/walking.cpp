#include "tests/shop/walking.h"

#include <algorithm>

namespace hw::shop {

const MoreTasks round_tasks{R"(
[[task]]
key = "air"
title = "Read the supply air"
assembly = "coolant"
point = 1
work = "measure"
skill = "operator"
energy = "in production"
minutes = 1
trigger = [ { calendar = "1 shift" } ]
steps = []
reading = [ { what = "supply air", unit = "bar", warning = { min = 5.5, max = 6.5 }, action = { min = 5, max = 7 } } ]
reason = "Seals need it."
caution = "Stay clear of the doors."
parts = []

[[task]]
key = "window"
title = "Clean the window"
assembly = "coolant"
work = "clean"
skill = "operator"
energy = "powered at rest"
minutes = 1
trigger = [ { calendar = "1 shift" } ]
steps = []
reason = "One sees."
caution = "No compressed air."
parts = []

[[task]]
key = "coolant"
title = "Top up the coolant"
assembly = "coolant"
work = "top up"
skill = "operator"
energy = "in production"
minutes = 5
trigger = [ { calendar = "1 shift" } ]
quantity_unit = "l"
steps = []
reason = "It evaporates."
caution = "Gloves."
parts = []

[[task]]
key = "start"
title = "Look around before it starts"
assembly = "spindle"
work = "inspect"
skill = "operator"
energy = "powered at rest"
minutes = 1
trigger = [ { calendar = "1 start-up" } ]
steps = []
reason = "Things lie about."
caution = "Nobody behind the machine."
parts = []

[[task]]
key = "week"
title = "Measure the coolant"
assembly = "coolant"
work = "measure"
skill = "operator"
energy = "in production"
minutes = 3
trigger = [ { calendar = "1 week" } ]
steps = []
reading = [ { what = "pH", unit = "pH" } ]
reason = "It ages."
caution = "Gloves."
parts = []
)"};

const std::vector<std::string> shift_checks{"look", "window", "coolant", "air/supply air"};

namespace {

service::CheckAnswer answered(std::string check, std::string kind, std::string word) {
  service::CheckAnswer answer;
  answer.check = std::move(check);
  answer.kind = std::move(kind);
  answer.answer = std::move(word);
  return answer;
}

}  // namespace

service::CheckAnswer good(std::string check, std::string kind) {
  return answered(std::move(check), std::move(kind), "as it should be");
}

service::CheckAnswer bad(std::string check, std::string kind) {
  return answered(std::move(check), std::move(kind), "not so");
}

service::CheckAnswer read(std::string check, double value, std::string unit) {
  service::CheckAnswer answer;
  answer.check = std::move(check);
  answer.kind = "reading";
  answer.value = value;
  answer.unit = std::move(unit);
  return answer;
}

service::Signature Walker::sign(int id) const {
  return {id_of(id), by, scene.now - ago + clock_off, scene.now + clock_off};
}

Result<service::EntryView> Walker::begin(int id, std::vector<std::string> checks) const {
  return begin_walk(scene.shop(), machine, rhythm, {sign(id), std::move(checks)}, scene.now);
}

Result<service::EntryView> Walker::answer(int id, int walk, service::CheckAnswer answer) const {
  return answer_checks(scene.shop(), machine, rhythm, {sign(id), id_of(walk), false, {std::move(answer)}, {}},
                       scene.now);
}

Result<service::EntryView> Walker::others(int id, int walk, std::vector<service::CheckAnswer> answers) const {
  return answer_checks(scene.shop(), machine, rhythm, {sign(id), id_of(walk), true, std::move(answers), {}}, scene.now);
}

service::RoundView round_of(const Scene& scene, std::string_view rhythm, std::string machine) {
  const auto view = must(show_rounds(scene.shop(), machine, scene.now));
  for (const auto& round : view.machines.at(0).rounds) {
    if (round.rhythm == rhythm) return round;
  }
  ADD_FAILURE() << "no round " << rhythm;
  return {};
}

std::vector<std::string> answers_now(const Scene& scene, std::string_view rhythm) {
  std::vector<std::string> out;
  const auto round = round_of(scene, rhythm);
  if (!round.now) return out;
  for (const auto& one : round.now->answers) {
    out.push_back(one.value ? fmt::format("{} {} {}", one.check, *one.value, *one.unit)
                            : fmt::format("{} {}", one.check, *one.answer));
  }
  std::sort(out.begin(), out.end());
  return out;
}

std::vector<std::string> past(const Scene& scene, std::string_view rhythm) {
  std::vector<std::string> out;
  const auto round = round_of(scene, rhythm);
  for (const auto& turn : round.past) {
    out.push_back(fmt::format("{} {}{}{}", print(turn.on), turn.shift, turn.shift.empty() ? "" : " ", turn.state));
  }
  return out;
}

}  // namespace hw::shop
