#pragma once
// The key figures of a month. FE failures, TBF operating time between them, TTR time to repair:
//
//   availability            APT / PBT
//   technical availability  sum TBF / (sum TBF + sum TTR)
//   MTBF, by failures       sum TBF / FE          MTTR, by failures       sum TTR / FE
//   MTBF, by ISO 22400-2    sum TBF / (FE + 1)    MTTR, by ISO 22400-2    sum TTR / (FE + 1)
//   corrective ratio        CMT / (CMT + PMT)
//   planned share           hands-on hours in agreed stops / all hands-on hours
//   tasks in time           done before overdue / (done + became overdue and not done)
//   rounds walked           turns walked / turns that are over
//   failure cost share      cost of failures / (cost of care + cost of failures)
//
// ISO 22400-2 defines its figures for one work unit; of several machines numerator and denominator are added up, each
// with its own FE + 1, which is our choice. What each rests on: figure_notes.h.
//
// A figure has a value, or a range that unknown time leaves, or neither with the reason. An unknown hour is never taken
// for one in which nothing ran, nor for one in which something did.

#include <optional>
#include <vector>

#include <boost/describe/enum.hpp>

#include "src/month/month_sums.h"

namespace hw::month {

enum class FigureKey {
  availability,
  technical_availability,
  mtbf_by_failures,
  mtbf_by_iso_22400,
  mttr_by_failures,
  mttr_by_iso_22400,
  corrective_ratio,
  planned_share,
  tasks_in_time,
  rounds_walked,
  failure_cost_share
};
BOOST_DESCRIBE_ENUM(FigureKey, availability, technical_availability, mtbf_by_failures, mtbf_by_iso_22400,
                    mttr_by_failures, mttr_by_iso_22400, corrective_ratio, planned_share, tasks_in_time, rounds_walked,
                    failure_cost_share)

enum class NoValue {
  nothing_planned,    // no hour of production was planned
  more_than_planned,  // programs ran for longer than was planned: outside of the shifts
  no_hours,           // nobody knows of any hour in which a program ran
  no_failure,         // a mean of no failures
  nothing_stood,      // no machine stood for a failure or a stop
  no_work,            // no work was done
  no_task,            // no task was done, and none became overdue
  no_round,           // no turn of a round is over
  no_cost,            // nothing was spent
};
BOOST_DESCRIBE_ENUM(NoValue, nothing_planned, more_than_planned, no_hours, no_failure, nothing_stood, no_work, no_task,
                    no_round, no_cost)

// Shares from 0 to 1; means in hours.
struct KeyFigure {
  FigureKey key = FigureKey::availability;
  std::optional<double> value = {};
  std::optional<double> low = {};   // where there is no value: it is at least that,
  std::optional<double> high = {};  // and at most that
  std::optional<NoValue> none = {};
  // Of the MTBF by failures, also where there was none: with 90 % confidence the true mean is at least that, where
  // failures come evenly (chi-square: life/failure_rate.h).
  std::optional<double> at_least = {};
};
inline constexpr double confidence = 0.9;

// All of them in the order of FigureKey. `sums` as check() lets through.
std::vector<KeyFigure> key_figures(const MonthSums& sums);

}  // namespace hw::month
