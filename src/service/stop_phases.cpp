#include "src/service/stop_phases.h"

#include <algorithm>

#include "src/service/stop_plan.h"

namespace hw::service {
namespace {

using catalogue::EnergyState;

int level_of(EnergyState state) { return static_cast<int>(state); }

std::string change_word(int from, int to) {
  if (to > from) return to == level_of(EnergyState::isolated) ? "isolate" : "shut down";
  return from == level_of(EnergyState::isolated) ? "release" : "restart";
}

// Builds the phases while it goes through the works in their order.
class Phases {
 public:
  Phases(CardOrderView& view, const catalogue::Stopping& stopping) : view_(view), stopping_(stopping) {}

  void go_to(EnergyState state) {
    while (level_ != level_of(state)) {
      const int next = level_ < level_of(state) ? level_ + 1 : level_ - 1;
      view_.phases.push_back({std::string{word_of(static_cast<EnergyState>(next))}, change_word(level_, next), {}});
      minutes_ += change_minutes(level_, next);
      level_ = next;
    }
  }
  void add(CardWorkView work) {
    if (view_.phases.empty()) {
      view_.phases.push_back({std::string{word_of(EnergyState::in_production)}, "none", {}});
    }
    view_.phases.back().works.push_back(std::move(work));
  }
  double minutes() const { return minutes_; }  // of all changes so far

 private:
  // Half of what a state needs beyond the one below it: the way there, and the way back.
  double change_minutes(int from, int to) const {
    const auto upper = static_cast<EnergyState>(std::max(from, to));
    const auto lower = static_cast<EnergyState>(std::min(from, to));
    return (set_up_minutes(stopping_, upper) - set_up_minutes(stopping_, lower)) / 2;
  }

  CardOrderView& view_;
  const catalogue::Stopping& stopping_;
  int level_ = 0;
  double minutes_ = 0;
};

// Each work's share, found by its place in the list of works.
std::vector<sequence::Share> shares_by_work(const OrderedWorks& ordered) {
  std::vector<sequence::Share> shares(ordered.works.size());
  for (const auto& share : sequence::share_between_two(ordered.works, ordered.order)) {
    shares[static_cast<std::size_t>(share.work)] = share;
  }
  return shares;
}

}  // namespace

CardOrderView order_view(const OrderedWorks& ordered, const std::vector<PlannedTask>& tasks,
                         const catalogue::Stopping& stopping) {
  CardOrderView view;
  view.state_changes = ordered.order.state_changes;
  view.walk_sides = ordered.order.walk_length;
  const auto shares = shares_by_work(ordered);
  Phases phases(view, stopping);
  double last_end = 0;
  for (const int number : ordered.order.works) {
    const auto place = static_cast<std::size_t>(number);
    const sequence::StopWork& work = ordered.works[place];
    phases.go_to(work.state);
    CardWorkView shown{
        tasks[place].task, shares[place].person + 1, shares[place].begin_minutes + phases.minutes(), work.is_alone, {}};
    for (const int other : work.after) shown.after.push_back(tasks[static_cast<std::size_t>(other)].task);
    view.minutes_one += work.minutes;
    last_end = std::max(last_end, shares[place].begin_minutes + work.minutes);
    phases.add(std::move(shown));
  }
  phases.go_to(EnergyState::in_production);
  view.minutes_one += phases.minutes();
  view.minutes_two = last_end + phases.minutes();
  return view;
}

}  // namespace hw::service
