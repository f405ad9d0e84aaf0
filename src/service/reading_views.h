#pragma once
// What the service tells of readings and of what is used up, in the words and fields of api/openapi.yaml: one struct
// for one schema there.

#include <optional>
#include <string>
#include <vector>

#include "src/service/round_views.h"

namespace hw::service {

// When a reading meets a limit; the days count from the last reading, and there are none where it is beyond already.
struct ReadingCrossingView {
  std::string limit;  // warning, action
  std::string side;   // below, above
  double at = 0;
  bool beyond = false;
  OrNull<LocalDate> first;   // 10 %
  OrNull<LocalDate> median;  // 50 %
  OrNull<LocalDate> last;    // 90 %
};
BOOST_DESCRIBE_STRUCT(ReadingCrossingView, (), (limit, side, at, beyond, first, median, last))

struct ReadingLineView {
  std::string task;
  std::string title;  // of the task
  std::string assembly;
  std::optional<int> point;
  std::string what;
  std::string unit;
  std::optional<BoundsText> warning;
  std::optional<BoundsText> action;
  int count = 0;
  std::optional<CheckValueView> last;
  std::optional<std::string> direction;  // rising, falling, none seen
  std::optional<double> slope;           // in units a day
  std::optional<double> p;               // two-sided, that chance alone gives one as clear
  std::optional<ReadingCrossingView> crossing;
  std::optional<std::string> refused;
  std::optional<Saying> refusal;
};
BOOST_DESCRIBE_STRUCT(ReadingLineView, (),
                      (task, title, assembly, point, what, unit, warning, action, count, last, direction, slope, p,
                       crossing, refused, refusal))

// What was filled in, and what that is an hour since the fill before.
struct FillView {
  Instant at;
  std::string by;
  std::string entry;
  double amount = 0;
  double counter_total = 0;
  std::optional<double> rate;
};
BOOST_DESCRIBE_STRUCT(FillView, (), (at, by, entry, amount, counter_total, rate))

struct UseLineView {
  std::string task;
  std::string title;
  std::string assembly;
  std::string unit;
  std::string consumable;
  std::string counter;
  std::vector<FillView> fills;  // the oldest first
  std::optional<double> over_all;
  std::optional<double> last_against_rest;
  std::optional<double> p;
  std::optional<std::string> direction;  // less, more, none seen
  std::optional<std::string> says;       // what less or more means
  std::optional<std::string> refused;
  std::optional<Saying> refusal;
};
BOOST_DESCRIBE_STRUCT(UseLineView, (),
                      (task, title, assembly, unit, consumable, counter, fills, over_all, last_against_rest, p,
                       direction, says, refused, refusal))

struct ReadingsView {
  Instant now;
  std::string machine;
  std::vector<ReadingLineView> readings;
  std::vector<UseLineView> uses;
};
BOOST_DESCRIBE_STRUCT(ReadingsView, (), (now, machine, readings, uses))

struct ReadingPointView {
  Instant at;
  std::string by;
  std::string entry;
  std::optional<std::string> stop;
  double value = 0;
  std::string state;
};
BOOST_DESCRIBE_STRUCT(ReadingPointView, (), (at, by, entry, stop, value, state))

struct ReadingDayView {
  LocalDate date;
  double value = 0;
  std::vector<std::string> out;  // the rules that call at this day
};
BOOST_DESCRIBE_STRUCT(ReadingDayView, (), (date, value, out))

struct ReadingChartView {
  double mean = 0;
  double mean_range = 0;
  double sigma = 0;
  double lower = 0;
  double upper = 0;
};
BOOST_DESCRIBE_STRUCT(ReadingChartView, (), (mean, mean_range, sigma, lower, upper))

struct ReadingTrendView {
  std::string direction;
  double slope = 0;
  double slope_low = 0;
  double slope_high = 0;
  double begins_at = 0;  // of the line on the first day
  std::int64_t s = 0;
  double p = 1;
  bool exact = false;
  double drift = 0;
  double scatter = 0;
};
BOOST_DESCRIBE_STRUCT(ReadingTrendView, (),
                      (direction, slope, slope_low, slope_high, begins_at, s, p, exact, drift, scatter))

struct ReadingWorkingView {
  Instant now;
  std::string machine;
  ReadingLineView reading;
  std::vector<ReadingPointView> points;  // the oldest first
  std::vector<ReadingDayView> days;
  std::optional<ReadingChartView> chart;
  std::optional<ReadingTrendView> trend;
  std::vector<ReadingCrossingView> crossings;
};
BOOST_DESCRIBE_STRUCT(ReadingWorkingView, (), (now, machine, reading, points, days, chart, trend, crossings))

}  // namespace hw::service
