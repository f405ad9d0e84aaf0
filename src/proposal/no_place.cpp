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

WithoutPlace without_place(const ShopAhead& shop, const std::string& machine, const std::string& task,
                           const std::string& why) {
  const Names names = names_of(shop, {machine, task});
  return {machine, task, {why, {"no-place", {{"machine", names.machine}, {"title", names.task}, {"says", why}}}}};
}

// The instance with that task alone.
plan::Instance alone(const plan::Instance& frame, const plan::Machine& machine, const plan::Task& task) {
  plan::Instance one = frame;
  one.machines = {machine};
  one.machines[0].tasks = {task};
  return one;
}

// Why it cannot be placed; empty where it can.
std::string impossible_because(const plan::Instance& instance) {
  const plan::Model model = plan::build_model(instance);
  const plan::Draft nothing(model);
  plan::Draft draft(model);
  return draft.place({0, 0}) ? "" : plan::explain_no_place(instance, nothing, {0, 0});
}

}  // namespace

std::vector<WithoutPlace> take_out_impossible(const ShopAhead& shop, plan::Instance& instance) {
  plan::Instance frame = instance;
  frame.machines.clear();
  std::vector<WithoutPlace> out;
  for (plan::Machine& machine : instance.machines) {
    std::vector<plan::Task> possible;
    for (plan::Task& task : machine.tasks) {
      const std::string why = impossible_because(alone(frame, machine, task));
      if (why.empty()) {
        possible.push_back(std::move(task));
      } else {
        out.push_back(without_place(shop, machine.id, task.id, why));
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
    const std::string why = out.size() < obstacles_explained ? plan::explain_no_place(instance, draft, at)
                                                             : fmt::format("{} {} found no place", machine.id, task);
    out.push_back(without_place(shop, machine.id, task, why));
  }
  return out;
}

}  // namespace hw::proposal
