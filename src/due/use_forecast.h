#pragma once
// From the history of a counter to due days: prepared once per counter, then asked for any task.
//
//   const auto forecast = UseForecast::prepare(history);      // half a millisecond
//   DueQuantiles days = forecast->due_days(120.0);            // below a microsecond
//
// In: the daily use so far, closed days, an announced change of shifts, what like machines lend. Out: for an amount
// that is left, the days by whose end it is used up with 5, 10, 25, 50, 75, 90 and 95 %; nothing where that lies beyond
// ten years. The method: docs/methods/due.md. Deterministic.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "src/due/daily_use.h"
#include "src/due/due_dates.h"
#include "src/due/future_days.h"
#include "src/due/use_curve.h"
#include "src/due/use_level.h"
#include "src/due/weekday_pattern.h"

namespace hw::due {

struct ForecastOptions {
  std::vector<ShiftChange> changes;
  std::optional<LentUse> lent;
};

// The mean use per calendar day over the days ahead, with its standard deviation (what the days scatter included).
struct LevelAhead {
  int days = 0;
  double per_day = 0;
  double spread = 0;
};

// What a forecast rests on, for whoever wants to follow it. Amounts in the counter's unit.
struct UseWorking {
  LocalDate first_on{};
  LocalDate last_known_on{};
  int known_days = 0;
  int unknown_days = 0;
  double used = 0;          // in all
  double mean_per_day = 0;  // over the known days
  WeekdayPattern weekdays{};
  std::vector<LevelAhead> ahead{};  // 7, 28, 91 and 364 days
  double long_mean_per_day = 0;     // what the level returns to
  double memory_days = 0;           // how long the level remembers; 0: it does not wander
  double season_weight = 0;         // 0 to 1: how much a yearly season is believed in
  int idle_days = 0;                // known days without use at the end, on weekdays that have use otherwise
  bool is_lent = false;
};

class UseForecast {
 public:
  // Errors: those of arrange(). A counter that never rose is no error: it is never due (unless use is lent).
  static Result<UseForecast> prepare(const UseHistory& history, const ForecastOptions& options = {});

  // `left` is finite; 0 or less is due at the start.
  DueQuantiles due_days(double left) const;
  // The same with all the chances that are kept, for first_of.
  DueDistribution distribution(double left) const;
  // P(due by the end of that day); the day lies from the start to ten years on.
  double chance_by(LocalDate day, double left) const;

  bool never_used() const { return !curve_; }
  LocalDate start() const { return start_; }
  const UseWorking& working() const { return working_; }
  // One sentence for a person: what this rests on.
  std::string basis() const;

 private:
  UseForecast() = default;

  LocalDate start_;
  std::optional<UseCurve> curve_;  // none: no use is to be expected at all
  UseWorking working_;
};

}  // namespace hw::due
