#include "src/service/stop_edits.h"

#include <set>

namespace hw::service {
namespace {

constexpr double doing_minutes_max = 10'080;  // a week
constexpr double filled_max = 1e9;

Result<void> check_task_keys(const std::vector<std::string>& tasks) {
  if (tasks.empty()) {
    return refuse(ErrorCode::bad_input, Saying{"stop-empty"}, "tasks: a stop has at least one task");
  }
  if (tasks.size() > stop_tasks_max) {
    return refuse(ErrorCode::bad_input, Saying{"stop-full", {}, {{"most", double{stop_tasks_max}}}},
                  "tasks: a stop has at most {} tasks, not {}", stop_tasks_max, tasks.size());
  }
  std::set<std::string_view> named;
  for (const std::string& task : tasks) {
    HW_TRY(check_key("tasks", task));
    if (!named.insert(task).second) return refuse(ErrorCode::bad_input, "tasks: \"{}\" is named twice", task);
  }
  return {};
}

Result<void> check_amounts(const StopDone& done) {
  if (done.minutes && !(*done.minutes >= 0 && *done.minutes <= doing_minutes_max)) {
    return refuse(ErrorCode::bad_input, "minutes: {} must be 0 to {}", *done.minutes, doing_minutes_max);
  }
  if (done.quantity && !(*done.quantity >= 0 && *done.quantity <= filled_max)) {
    return refuse(ErrorCode::bad_input, "quantity: {} cannot be; it is 0 or more", *done.quantity);
  }
  return {};
}

Result<void> check_done(const StopDone& done, const StopClose& edit) {
  HW_TRY(check_signature(done.id, done.by.value_or(edit.by)));
  HW_TRY(check_key("task", done.task));
  HW_TRY(check_note(done.note));
  return check_amounts(done);
}

// Each entry has an id of its own, and each task is done once.
Result<void> check_done_once(const StopClose& edit) {
  std::set<std::string_view> ids{edit.id};
  if (edit.used && !ids.insert(edit.used->id).second) {
    return refuse(ErrorCode::bad_input, "used.id: {} stands twice; each entry has an id of its own", edit.used->id);
  }
  std::set<std::string_view> tasks;
  for (std::size_t i = 0; i < edit.done.size(); ++i) {
    const StopDone& done = edit.done[i];
    if (auto checked = check_done(done, edit); !checked) return refuse(checked.error().at(fmt::format("done[{}]", i)));
    if (!ids.insert(done.id).second) {
      return refuse(ErrorCode::bad_input, "done[{}].id: {} stands twice; each entry has an id of its own", i, done.id);
    }
    if (!tasks.insert(done.task).second) {
      return refuse(ErrorCode::bad_input, "done[{}].task: \"{}\" is named twice", i, done.task);
    }
  }
  return {};
}

}  // namespace

Result<void> check(const StopEdit& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_note(edit.note));
  return check_task_keys(edit.tasks);
}

Result<void> check(const StopChange& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_note(edit.note));
  if (edit.tasks) HW_TRY(check_task_keys(*edit.tasks));
  if (edit.on || edit.shift || edit.tasks || edit.note) return {};
  return refuse(ErrorCode::bad_input, Saying{"changes-nothing"},
                "it changes nothing; right is one at least of on, shift, tasks, note");
}

Result<void> check(const StopWithdraw& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  return check_text("why", edit.why);
}

Result<void> check(const StopClose& edit) {
  HW_TRY(check_signature(edit.id, edit.by));
  HW_TRY(check_note(edit.note));
  if (edit.ended_at < edit.began_at) {
    return refuse(ErrorCode::bad_input, Saying{"stop-turned"}, "ended_at: {} is before {}, when it began",
                  print(edit.ended_at), print(edit.began_at));
  }
  return check_done_once(edit);
}

}  // namespace hw::service
