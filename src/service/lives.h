#pragma once
// What people can ask of parts' lives, and what they can do with the answer. One function = one thing done.

#include "src/service/lives_views.h"
#include "src/service/part_study.h"
#include "src/service/use_forecasts.h"

namespace hw::service {

// Every part of the shop, those whose interval is worth moving first.
Result<PartsView> show_parts(const OpenShop& shop, PartStudies& studies, UseForecasts& forecasts, Instant now);

// Everything about one part. Errors: not_found; bad_input for costs below 0 or beyond 1e9, or an interval that is not
// above 0.
Result<PartStudyView> show_part(const OpenShop& shop, PartStudies& studies, UseForecasts& forecasts,
                                const PartName& name, const PartQuery& query, Instant now);

inline constexpr std::string_view interval_moved = "interval moved";

// Moves the interval of the part's task on the machines that are named, in one transaction; each has an entry with what
// the decision rested on. A heads-up and a tolerance become shorter with an interval that does. Errors: bad_input (no
// machine, no reason, the interval it has already, one that safety, law or warranty demands lengthened without saying
// why); conflict where a task was changed since it was looked at; not_found.
Result<IntervalMovedView> move_interval(OpenShop& shop, PartStudies& studies, UseForecasts& forecasts,
                                        const PartName& name, const IntervalEdit& edit, Instant now);

// Refuses (bad_input) what is no interval that can be moved to: from 1e-6 to 1e9 in the unit of its counter.
Result<void> check_interval(double interval);

// By whom a task is demanded: as it says, and safety where it guards people.
catalogue::Demand demand_of(const catalogue::Task& task);

// Worth a line on Today: at least three failures, a chance of 90 % to save, a tenth of the cost or more; and nothing
// that safety, law or warranty demands is lengthened. Our own choice.
bool is_worth_saying(const PartStudy& study);

PartView part_view(const PartStudy& study, double per_year);
// By how much the part's counter rises in a year on a machine: 365 / 7 times a week of its mean known weekdays.
Result<double> per_year(UseForecasts& forecasts, const PartStudy& study, const std::string& machine, Instant now);
// Over all machines that have the part.
Result<double> per_year(UseForecasts& forecasts, const PartStudy& study, Instant now);
MoveView move_view(const life::JudgedInterval& judged, double per_year);
// What one replacement costs, by the study or as it is asked for. Errors: bad_input for costs not above 0 or beyond
// 1e9.
Result<life::ReplacementCosts> costs_asked(const PartStudy& study, const PartQuery& query);
// A move from the present interval; nothing where there is none, or nothing to weigh it by.
std::optional<MoveView> judged_move(const PartStudy& study, const life::ReplacementCosts& costs, double interval,
                                    double per_year);

}  // namespace hw::service
