// What people take over of a proposal, and take back.

#include <algorithm>

#include "src/service/proposals.h"

namespace hw::service {
namespace {

constexpr std::string_view why_dropped = "its tasks are done in other stops, as was proposed";
constexpr std::string_view why_undone = "the acceptance of a proposal was taken back";

StepKind step_kind(proposal::DifferenceKind kind) {
  switch (kind) {
    case proposal::DifferenceKind::made:
      return StepKind::agree;
    case proposal::DifferenceKind::moved:
    case proposal::DifferenceKind::changed:
      return StepKind::change;
    case proposal::DifferenceKind::dropped:
      return StepKind::withdraw;
  }
  return StepKind::agree;
}

StopStep step_of(const proposal::Difference& difference, std::string_view id) {
  StopStep step{.kind = step_kind(difference.kind),
                .entry = id_within(id, difference.key),
                .stop = difference.stop,
                .version = difference.version,
                .machine = difference.machine,
                .on = {},
                .shift = {},
                .tasks = difference.tasks,
                .note = {}};
  if (step.kind == StepKind::withdraw) step.note = why_dropped;
  if (difference.to) {
    step.on = difference.to->on;
    step.shift = difference.to->shift;
  }
  return step;
}

Result<const proposal::Difference*> find_difference(const ProposalWork& work, const std::string& key) {
  const auto& all = work.proposed->differences;
  const auto there = std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.key == key; });
  if (there == all.end()) {
    return refuse(ErrorCode::bad_input, "differences: the proposal has no difference \"{}\"", key.substr(0, 80));
  }
  if (work.accepted.count(key)) {
    return refuse(ErrorCode::conflict, Saying{"difference-accepted"}, "that was accepted already");
  }
  return &*there;
}

Result<std::vector<StopStep>> steps_of(const OpenShop& shop, const ProposalWork& work, const AcceptEdit& edit) {
  std::vector<StopStep> steps;
  for (const std::string& key : edit.differences) {
    HW_TAKE(difference, find_difference(work, key));
    steps.push_back(step_of(*difference, edit.id));
    if (steps.back().kind != StepKind::change) continue;
    HW_TAKE(stop, shop.store().stop(steps.back().stop));
    if (stop) steps.back().note = stop->plan.note;
  }
  return steps;
}

Result<void> check(const AcceptEdit& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  if (edit.differences.empty()) return refuse(ErrorCode::bad_input, "differences: name one at least");
  std::set<std::string_view> seen;
  for (const std::string& key : edit.differences) {
    if (!seen.insert(key).second) {
      return refuse(ErrorCode::bad_input, "differences: \"{}\" is there twice", key.substr(0, 80));
    }
  }
  return {};
}

// How to take a step back, once it is known what it came to.
StopStep step_back(const StopStep& step, const std::optional<Stop>& before, const StopView& after) {
  StopStep back{.kind = StepKind::withdraw,
                .entry = {},
                .stop = after.id,
                .version = after.version,
                .machine = step.machine,
                .on = {},
                .shift = {},
                .tasks = {},
                .note = std::string{why_undone}};
  if (!before) return back;
  back.kind = step.kind == StepKind::withdraw ? StepKind::agree : StepKind::change;
  if (back.kind == StepKind::agree) back.stop.clear();
  back.on = before->plan.on;
  back.shift = before->plan.shift;
  back.note = before->plan.note;
  for (const PlannedTask& task : before->plan.tasks) back.tasks.push_back(task.task);
  return back;
}

Result<std::vector<std::optional<Stop>>> stops_before(const OpenShop& shop, const std::vector<StopStep>& steps) {
  std::vector<std::optional<Stop>> before;
  for (const StopStep& step : steps) {
    if (step.stop.empty()) {
      before.emplace_back();
      continue;
    }
    HW_TAKE(stop, shop.store().stop(step.stop));
    before.push_back(std::move(stop));
  }
  return before;
}

std::vector<std::string> entries_of(const std::vector<StopStep>& steps) {
  std::vector<std::string> ids;
  for (const StopStep& step : steps) ids.push_back(step.entry);
  return ids;
}

}  // namespace

// Sent twice, also after a restart that has forgotten the proposal: the entries' ids follow from the edit's.
Result<AcceptedView> Proposals::accept(std::string_view id, const AcceptEdit& edit, Instant now) {
  HW_TRY(check(edit));
  std::vector<std::string> entries;
  for (const std::string& key : edit.differences) entries.push_back(id_within(edit.id, key));
  const std::lock_guard turn(mutex_);
  HW_TAKE(before, taken_before(shop_, entries));
  if (before) return *std::move(before);
  HW_TAKE(work, find(id));
  if (!work->proposed) {
    return refuse(ErrorCode::conflict, Saying{"proposal-not-ready"}, "the proposal is {}; there is nothing to accept",
                  formats::print_word(work->state));
  }
  HW_TAKE(steps, steps_of(shop_, *work, edit));
  std::stable_sort(steps.begin(), steps.end(), [](const auto& a, const auto& b) { return a.kind < b.kind; });
  HW_TAKE(stops, stops_before(shop_, steps));
  HW_TAKE(accepted, take_steps(shop_, steps, edit, now));
  work->accepted.insert(edit.differences.begin(), edit.differences.end());
  work->last_accepted = edit.differences;
  work->way_back.clear();
  for (std::size_t i = 0; i < steps.size(); ++i) {
    work->way_back.push_back(step_back(steps[i], stops[i], accepted.stops[i]));
  }
  return std::move(accepted);
}

Result<AcceptedView> Proposals::undo(std::string_view id, const Signature& signature, Instant now) {
  HW_TRY(check_signature(signature.id, signature.by));
  const std::lock_guard turn(mutex_);
  HW_TAKE(work, find(id));
  std::vector<StopStep> steps = work->undone_by == signature.id ? work->undone : work->way_back;
  for (std::size_t i = 0; i < steps.size(); ++i) steps[i].entry = id_within(signature.id, fmt::format("undo {}", i));
  HW_TAKE(before, taken_before(shop_, entries_of(steps)));
  if (before) return *std::move(before);
  if (steps.empty()) {
    return refuse(ErrorCode::conflict, Saying{"nothing-accepted"}, "nothing of this proposal is there to take back");
  }
  HW_TAKE(taken, take_steps(shop_, steps, signature, now));
  for (const std::string& key : work->last_accepted) work->accepted.erase(key);
  work->undone_by = signature.id;
  work->undone = std::move(work->way_back);
  work->way_back.clear();
  return std::move(taken);
}

}  // namespace hw::service
