#include "src/due/task_state.h"

#include <algorithm>

#include "libs/values/assert.h"

namespace hw::due {
namespace {

using catalogue::CalendarInterval;
using catalogue::CalendarTrigger;
using catalogue::PlantCalendar;

template <class Amount>
TaskState state_of(Amount left, Amount heads_up, Amount tolerance) {
  if (left < -tolerance) return TaskState::overdue;
  if (left <= Amount{0}) return TaskState::due;
  return left <= heads_up ? TaskState::coming : TaskState::in_hand;
}

LocalDate due_day(const CalendarInterval& every, const PlantCalendar& calendar, LocalDate done_on) {
  switch (every.unit) {
    case CalendarInterval::Unit::start_up:
      return calendar.next_working_day(done_on);
    case CalendarInterval::Unit::day:
      return every.count == 1 ? calendar.next_working_day(done_on) : done_on + every.count;
    case CalendarInterval::Unit::week:
      return done_on + 7 * every.count;
    case CalendarInterval::Unit::month:
      return add_months(done_on, every.count);
    case CalendarInterval::Unit::year:
      return add_months(done_on, 12 * every.count);
    case CalendarInterval::Unit::shift:
      break;
  }
  HW_ASSERT(false, "shifts are counted in turns, not in days");
}

double share_between(Instant begin, Instant end, Instant now) {
  return end > begin ? std::max(0.0, (now - begin).as_seconds() / (end - begin).as_seconds()) : 1.0;
}

// The turn in which the check has to be made next; none where the plant has no shifts ahead.
std::optional<catalogue::ShiftTurn> turn_due(const PlantCalendar& calendar, int count, Instant done_at) {
  auto turn = calendar.turn_after(done_at);
  for (int i = 1; turn && i < count; ++i) turn = calendar.turn_after(turn->begins_at);
  return turn;
}

CalendarStanding shift_standing(const CalendarTrigger& trigger, const PlantCalendar& calendar, Instant done_at,
                                Instant now) {
  const auto turn = turn_due(calendar, trigger.every.count, done_at);
  if (!turn) {  // a plant without shifts: its day is its shift
    CalendarTrigger daily = trigger;
    daily.every.unit = CalendarInterval::Unit::day;
    return standing(daily, calendar, done_at, now);
  }
  CalendarStanding out;
  out.due_on = turn->on;
  out.days_left = turn->on - calendar.zone.date_of(now);
  out.share_used = share_between(done_at, turn->begins_at, now);
  const Instant overdue_at = turn->ends_at + Duration::hours(24 * trigger.tolerance_days);
  if (now >= turn->begins_at) out.state = now >= overdue_at ? TaskState::overdue : TaskState::due;
  return out;
}

}  // namespace

std::string_view word_of(TaskState state) {
  switch (state) {
    case TaskState::in_hand:
      return "in hand";
    case TaskState::coming:
      return "coming";
    case TaskState::due:
      return "due";
    case TaskState::overdue:
      return "overdue";
  }
  HW_ASSERT(false, "every state has a word");
}

CounterStanding standing(const catalogue::CounterTrigger& trigger, double counter_then, double counter_now) {
  CounterStanding out;
  out.used = std::max(0.0, counter_now - counter_then);
  out.left = trigger.interval - out.used;
  out.share_used = out.used / trigger.interval;
  out.state = state_of(out.left, trigger.heads_up, trigger.tolerance);
  return out;
}

CalendarStanding standing(const CalendarTrigger& trigger, const PlantCalendar& calendar, Instant done_at, Instant now) {
  if (trigger.every.unit == CalendarInterval::Unit::shift) return shift_standing(trigger, calendar, done_at, now);
  const LocalDate done_on = calendar.zone.date_of(done_at);
  CalendarStanding out;
  out.due_on = due_day(trigger.every, calendar, done_on);
  out.days_left = out.due_on - calendar.zone.date_of(now);
  out.share_used = share_between(done_at, calendar.zone.begin_of(out.due_on), now);
  out.state = state_of(out.days_left, trigger.heads_up_days, trigger.tolerance_days);
  return out;
}

}  // namespace hw::due
