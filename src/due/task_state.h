#pragma once
// How much of a task's interval is used up, and what that makes of the task. Amounts in the counter's unit, dates in
// the plant's zone; `now` is an argument.
//
//   left = interval - (counter now - counter when last done)
//   coming   left <= heads-up        due   left <= 0        overdue   left < -tolerance

#include <optional>
#include <string_view>

#include "src/catalogue/plant_calendar.h"
#include "src/catalogue/task.h"

namespace hw::due {

enum class TaskState { in_hand, coming, due, overdue };  // in order of urgency

// "in hand", "coming", "due", "overdue".
std::string_view word_of(TaskState state);

struct CounterStanding {
  double used = 0;        // never below 0: a counter that was set back has used nothing
  double left = 0;        // below 0: over
  double share_used = 0;  // used / interval
  TaskState state = TaskState::in_hand;
};
CounterStanding standing(const catalogue::CounterTrigger& trigger, double counter_then, double counter_now);

struct CalendarStanding {
  LocalDate due_on;
  int days_left = 0;      // below 0: over
  double share_used = 0;  // days since / days from the last time to the due day
  TaskState state = TaskState::in_hand;
};
// A task done at `done_at`, or counting from it. Days, weeks, months and years are exact dates of the calendar (31
// January and a month: the last of February), but for "1 day" and "1 start-up", which skip days on which the plant does
// not work. A shift's check is due when the next turn after that of the last check begins, and overdue once that turn
// has ended.
CalendarStanding standing(const catalogue::CalendarTrigger& trigger, const catalogue::PlantCalendar& calendar,
                          Instant done_at, Instant now);

}  // namespace hw::due
