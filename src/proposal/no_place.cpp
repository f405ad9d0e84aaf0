#include "src/proposal/no_place.h"

#include "src/plan/obstacles.h"

namespace hw::proposal {
namespace {

constexpr std::size_t obstacles_explained = 12;  // the others are only named: each takes a search of its own

struct Names {
  std::string machine;
  std::string task;
};

// What people call the machine and the task.
Names names_of(const ShopAhead& shop, const Names& keys) {
  for (const MachineAhead& machine : shop.machines) {
    if (machine.key != keys.machine) continue;
    for (const TaskAhead& task : machine.tasks) {
      if (task.task.key == keys.task) return {machine.name, task.task.title};
    }
  }
  return keys;
}

std::string cell_name(const ShopAhead& shop, const std::string& key) {
  for (const catalogue::Cell& cell : shop.cells) {
    if (cell.key == key) return cell.title;
  }
  return key;
}

Sentence sentence_of(const ShopAhead& shop, const plan::WayOut& way) {
  using plan::Relaxation;
  const double amount = way.amount;
  switch (way.relaxation) {
    case Relaxation::days_later:
      return sentence({"room-later", {}, {{"days", amount}}}, "{} d later", amount);
    case Relaxation::crew_hours:
      return sentence({"room-people", {{"skill", way.of}}, {{"hours", amount}}}, "{} h more of {} a shift", amount,
                      way.of);
    case Relaxation::cell_places: {
      const std::string cell = cell_name(shop, way.of);
      return sentence({"room-cell", {{"cell", cell}}, {{"count", amount}}}, "{} more machines of {} down at once",
                      amount, cell);
    }
    case Relaxation::no_blackout:
      return sentence({"room-no-hold"}, "nothing holds the machine");
    case Relaxation::another_slot:
      return sentence({"room-other-day"}, "another day or shift than the agreed one");
    case Relaxation::no_closed_day:
      return sentence({"room-open"}, "the plant is open on a day on which it is closed");
    case Relaxation::days_earlier:
      return sentence({"room-ready-earlier", {}, {{"days", amount}}}, "{} d earlier, before its parts or its gap allow",
                      amount);
    case Relaxation::shift_hours:
      return sentence({"room-longer-shift", {}, {{"hours", amount}}}, "shifts {} h longer", amount);
  }
  return {};
}

Sentence sentence_of(const plan::NoPlace& found, const Names& names) {
  const std::map<std::string, std::string> texts{{"machine", names.machine}, {"title", names.task}};
  if (!found.is_impossible) {
    return sentence({"no-place-beside", texts}, "{}: \"{}\" found no place beside the other work", names.machine,
                    names.task);
  }
  if (found.ways.empty()) {
    return sentence({"no-place-several", texts}, "{}: \"{}\" cannot be placed; several limits forbid it at once",
                    names.machine, names.task);
  }
  return sentence({"no-place", texts}, "{}: \"{}\" cannot be placed within its limits", names.machine, names.task);
}

WithoutPlace without_place(const ShopAhead& shop, const Names& keys, const plan::NoPlace& found) {
  WithoutPlace made{keys.machine, keys.task, sentence_of(found, names_of(shop, keys)), {}};
  for (const plan::WayOut& way : found.ways) made.ways.push_back(sentence_of(shop, way));
  return made;
}

// The instance with that task alone.
plan::Instance alone(const plan::Instance& frame, const plan::Machine& machine, const plan::Task& task) {
  plan::Instance one = frame;
  one.machines = {machine};
  one.machines[0].tasks = {task};
  return one;
}

// Why it cannot be placed; nothing where it can.
std::optional<plan::NoPlace> impossible_because(const plan::Instance& instance) {
  const plan::Model model = plan::build_model(instance);
  const plan::Draft nothing(model);
  plan::Draft draft(model);
  if (draft.place({0, 0})) return std::nullopt;
  return plan::find_obstacles(instance, nothing, {0, 0});
}

}  // namespace

std::vector<WithoutPlace> take_out_impossible(const ShopAhead& shop, plan::Instance& instance) {
  plan::Instance frame = instance;
  frame.machines.clear();
  std::vector<WithoutPlace> out;
  for (plan::Machine& machine : instance.machines) {
    std::vector<plan::Task> possible;
    for (plan::Task& task : machine.tasks) {
      const auto why = impossible_because(alone(frame, machine, task));
      if (why) {
        out.push_back(without_place(shop, {machine.id, task.id}, *why));
      } else {
        possible.push_back(std::move(task));
      }
    }
    machine.tasks = std::move(possible);
  }
  return out;
}

std::vector<WithoutPlace> explain_left(const ShopAhead& shop, const plan::Instance& instance, const plan::Model& model,
                                       const plan::Proposal& proposal) {
  plan::Draft draft(model);
  draft.put_all(proposal.choice);
  std::vector<WithoutPlace> out;
  for (const plan::TaskAt at : proposal.without_place) {
    const plan::Machine& machine = instance.machines[static_cast<std::size_t>(at.machine)];
    const std::string& task = machine.tasks[static_cast<std::size_t>(at.task)].id;
    const bool is_explained = out.size() < obstacles_explained;
    out.push_back(without_place(shop, {machine.id, task},
                                is_explained ? plan::find_obstacles(instance, draft, at) : plan::NoPlace{}));
  }
  return out;
}

}  // namespace hw::proposal
