#include "src/service/task_forecast.h"

#include <algorithm>

#include "src/service/reading_triggers.h"

namespace hw::service {
namespace {

// The places of the shown chances (due::shown_chances) that a page's range is made of.
constexpr std::size_t at_10 = 1;
constexpr std::size_t at_50 = 3;
constexpr std::size_t at_90 = 5;

due::DueQuantiles on_day(LocalDate day) {
  due::DueQuantiles days;
  days.fill(day);
  return days;
}

TriggerForecast calendar_forecast(const TriggerView& trigger) {
  return {.days = on_day(*trigger.due_on),
          .overdue = on_day(*trigger.due_on + trigger.tolerance_days.value_or(0) + 1),
          .left = {},
          .refused = {}};
}

// Of the steps that were moved to today only the last counts.
due::DueDistribution without_repeats(const due::DueDistribution& due) {
  due::DueDistribution kept;
  for (const due::DueStep& step : due) {
    if (!kept.empty() && kept.back().on == step.on) kept.pop_back();
    kept.push_back(step);
  }
  return kept;
}

// A reading that nobody took since, or that has too few values, has no date; that it is overdue nobody says.
TriggerForecast reading_forecast(const TriggerView& trigger, LocalDate today) {
  TriggerForecast out;
  if (!trigger.reading_due) {
    out.refused = Error{ErrorCode::not_found, "its reading is not there any more", Saying{"reading-gone"}};
    return out;
  }
  out.refused = trigger.reading_due->refused;
  out.by_reading = trigger.reading_due->due;
  for (due::DueStep& step : out.by_reading) step.on = std::max(step.on, today);
  out.by_reading = without_repeats(out.by_reading);
  out.days = due::quantiles(out.by_reading);
  return out;
}

void refuse_forecast(ForecastView& view, const Error& why) {
  view.refused = why.message;
  view.refusal = why.saying;
}

// The whole distribution of a counter or a calendar date.
due::DueDistribution distribution_of(const TriggerView& trigger, const TriggerForecast& forecast, LocalDate today,
                                     const UseOf& use_of) {
  if (trigger.calendar) return due::on_calendar(*trigger.due_on);
  if (*trigger.left <= 0) return due::on_calendar(today);
  const CounterUse* use = use_of(*trigger.counter);
  return use && use->forecast ? use->forecast->distribution(*forecast.left) : due::DueDistribution{};
}

// Nothing is earlier than a day: no day is later than every other.
bool is_earlier(const std::optional<LocalDate>& a, const std::optional<LocalDate>& b) { return a && (!b || *a < *b); }

}  // namespace

TriggerForecast forecast_of(const TriggerView& trigger, LocalDate today, const UseOf& use_of,
                            const UsedToday& used_today) {
  if (trigger.calendar) return calendar_forecast(trigger);
  if (trigger.reading) return reading_forecast(trigger, today);
  TriggerForecast out;
  out.left = *trigger.left + used_today(*trigger.counter);
  if (*trigger.left <= 0) out.days = on_day(today);
  const CounterUse* use = use_of(*trigger.counter);
  if (!use || !use->forecast) {
    out.refused = use ? use->refused
                      : Error{ErrorCode::not_found, "this machine does not count it yet", Saying{"use-not-counted"}};
    return out;
  }
  if (*trigger.left > 0) out.days = use->forecast->due_days(*out.left);
  out.overdue = use->forecast->due_days(*out.left + trigger.tolerance.value_or(0));
  return out;
}

due::DueQuantiles first_of(const std::vector<due::DueQuantiles>& all) {
  due::DueQuantiles first;
  for (const due::DueQuantiles& days : all) {
    for (std::size_t i = 0; i < first.size(); ++i) {
      if (is_earlier(days[i], first[i])) first[i] = days[i];
    }
  }
  return first;
}

due::DueQuantiles first_due(const TaskView& task, LocalDate today, const UseOf& use_of, const UsedToday& used_today) {
  std::vector<due::DueQuantiles> days;
  std::vector<due::DueDistribution> alike;
  std::vector<due::DueDistribution> apart;
  const bool has_reading = std::any_of(task.triggers.begin(), task.triggers.end(),
                                       [](const TriggerView& one) { return one.reading.has_value(); });
  for (const TriggerView& trigger : task.triggers) {
    TriggerForecast one = forecast_of(trigger, today, use_of, used_today);
    days.push_back(one.days);
    if (trigger.reading) {
      apart.push_back(std::move(one.by_reading));
    } else if (has_reading) {
      alike.push_back(distribution_of(trigger, one, today, use_of));
    }
  }
  if (!has_reading) return first_of(days);
  apart.push_back(due::first_of(alike, due::Together::alike));
  return due::quantiles(due::first_of(apart, due::Together::independent));
}

ForecastView forecast_view(const TaskView& task, LocalDate today, const UseOf& use_of, const UsedToday& used_today) {
  ForecastView view;
  std::vector<due::DueQuantiles> overdue_days;
  std::optional<LocalDate> leading;
  std::optional<Error> unread;
  for (const TriggerView& trigger : task.triggers) {
    const TriggerForecast one = forecast_of(trigger, today, use_of, used_today);
    // A reading that was not read often enough leaves the date to the task's other triggers.
    if (one.refused && trigger.reading) unread = one.refused;
    if (one.refused && !trigger.reading && !view.refused) refuse_forecast(view, *one.refused);
    if (view.leads.empty() || is_earlier(one.days[at_50], leading)) {
      leading = one.days[at_50];
      view.leads = trigger.counter ? *trigger.counter : trigger.calendar ? *trigger.calendar : *trigger.reading;
    }
    overdue_days.push_back(one.overdue);
  }
  const due::DueQuantiles first = first_due(task, today, use_of, used_today);
  view.first = formats::or_null(first[at_10]);
  view.median = formats::or_null(first[at_50]);
  view.last = formats::or_null(first[at_90]);
  if (unread && !first[at_50] && !view.refused) refuse_forecast(view, *unread);
  view.overdue_median = formats::or_null(first_of(overdue_days)[at_50]);
  return view;
}

bool is_round_check(const TaskView& task) {
  return std::any_of(task.triggers.begin(), task.triggers.end(), [](const auto& one) {
    return one.calendar == "1 shift" || one.calendar == "1 day" || one.calendar == "1 start-up";
  });
}

}  // namespace hw::service
