#include "tests/simulation/shop_run.h"

namespace hw::simulation {
namespace {

class ShopRun {
 public:
  ShopRun(const DayPlan& plan, const RunOptions& options)
      : plan_(plan), options_(options), scene_(print(plan.begins_at), "Europe/Berlin", shop::round_tasks) {}

  Digest run(const std::vector<Message>& messages) {
    const std::size_t restart_every = messages.size() / static_cast<std::size_t>(options_.restarts + 1) + 1;
    for (std::size_t i = 0; i < messages.size(); ++i) {
      change_machines_until(messages[i].arrives_at);
      move_to(messages[i].arrives_at);
      deliver(plan_.acts[messages[i].act]);
      if ((i + 1) % restart_every == 0) scene_.reopen();
    }
    change_machines_until(plan_.ends_at);
    move_to(plan_.ends_at);
    return digest_of(scene_);
  }

 private:
  // The feed is alive all the time.
  void move_to(Instant at) {
    scene_.now = at;
    scene_.tell("mill1", {});
  }

  void change_machines_until(Instant at) {
    for (; next_change_ < plan_.changes.size() && plan_.changes[next_change_].at <= at; ++next_change_) {
      const MachineChange& change = plan_.changes[next_change_];
      move_to(change.at);
      scene_.tell(change.machine, shop::state_at(change.mark, change.at));
    }
  }

  void deliver(const Act& act) {
    for (const Act& one : options_.tamper ? options_.tamper(act) : std::vector{act}) {
      const auto told = tell(scene_, one, plan_.clocks_off[one.phone]);
      EXPECT_TRUE(told) << one.id << ": " << told.error().message;
    }
  }

  const DayPlan& plan_;
  const RunOptions& options_;
  shop::Scene scene_;
  std::size_t next_change_ = 0;
};

}  // namespace

Digest run_shop(const DayPlan& plan, const std::vector<Message>& messages, const RunOptions& options) {
  return ShopRun(plan, options).run(messages);
}

}  // namespace hw::simulation
