#include <algorithm>

#include "src/catalogue/task.h"

namespace hw::catalogue {
namespace {

const Bounds& bounds_for(const TaskReading& reading, LimitKind limit) {
  return limit == LimitKind::warning ? reading.warning : reading.action;
}

bool is_called_for_otherwise(const Task& task) {
  return std::any_of(task.triggers.begin(), task.triggers.end(),
                     [](const Trigger& one) { return !std::holds_alternative<ReadingTrigger>(one); });
}

Result<void> check_source(const Task& task, const ReadingTrigger& trigger, const std::vector<Task>& tasks) {
  if (trigger.of == task.key) {
    return refuse(ErrorCode::bad_input, "of: it would be read only when the task itself is done; name another task");
  }
  const auto source = std::find_if(tasks.begin(), tasks.end(), [&](const Task& one) { return one.key == trigger.of; });
  if (source == tasks.end()) return refuse(ErrorCode::bad_input, "of: the machine has no task \"{}\"", trigger.of);
  const auto reading = std::find_if(source->readings.begin(), source->readings.end(),
                                    [&](const TaskReading& one) { return one.what == trigger.reading; });
  if (reading == source->readings.end()) {
    return refuse(ErrorCode::bad_input, "reading: \"{}\" reads no \"{}\"", source->title, trigger.reading);
  }
  if (bounds_for(*reading, trigger.limit) == Bounds{}) {
    return refuse(ErrorCode::bad_input, "limit: \"{}\" of \"{}\" has no {} limit; set one, or name the other",
                  trigger.reading, source->title, word_of(trigger.limit));
  }
  if (!is_called_for_otherwise(*source)) {
    return refuse(ErrorCode::bad_input, "of: nobody takes this reading, as \"{}\" is itself due by a reading alone",
                  source->title);
  }
  return {};
}

}  // namespace

Result<void> check_reading_triggers(const std::vector<Task>& tasks) {
  for (const Task& task : tasks) {
    for (std::size_t i = 0; i < task.triggers.size(); ++i) {
      const auto* trigger = std::get_if<ReadingTrigger>(&task.triggers[i]);
      if (!trigger) continue;
      if (auto checked = check_source(task, *trigger, tasks); !checked) {
        return refuse(checked.error().at(fmt::format("task {}, triggers[{}]", task.key, i)));
      }
    }
  }
  return {};
}

}  // namespace hw::catalogue
