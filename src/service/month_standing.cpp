#include "src/service/month_standing.h"

#include <algorithm>

namespace hw::service {
namespace {

constexpr int past_read_max = 20'000;
constexpr const char* operating_key = "operating";

std::optional<double> operating_in(const CounterTotals& totals) {
  const auto found = totals.find(operating_key);
  return found == totals.end() ? std::nullopt : std::optional{found->second};
}

// The counter when the failure was found and when it was settled, from their entries.
Result<void> add_counters(Failure& failure, const OpenShop& shop, const OpenMachine& machine) {
  HW_TAKE(entries, shop.store().entries_about(failure.finding.id));
  const auto lock = shop.look();
  for (const Entry& entry : entries) {
    if (entry.id == failure.finding.id) failure.operating_at_begin = operating_in(as_counted_now(machine, entry));
    if (entry.kind == "finding settled") failure.operating_at_end = operating_in(as_counted_now(machine, entry));
  }
  return {};
}

Failure failure_of(Finding finding, const MonthSpan& span) {
  Failure failure;
  const Instant end = finding.settled ? finding.settled->at : span.time.ends_at;
  failure.is_of_month = is_in(span, finding.at);
  failure.goes_on = !finding.settled || finding.settled->at > span.time.ends_at;
  failure.stood = {std::max(finding.at, span.time.begins_at), std::min(end, span.time.ends_at)};
  failure.finding = std::move(finding);
  return failure;
}

Result<std::vector<Finding>> findings_of(const OpenShop& shop, const std::string& machine) {
  HW_TAKE(all, shop.store().settled_findings(machine, past_read_max));
  HW_TAKE(open, shop.store().open_findings(machine));
  all.insert(all.end(), open.begin(), open.end());
  return std::move(all);
}

Result<void> add_failures(MonthStanding& standing, const OpenShop& shop, const OpenMachine& machine,
                          const MonthSpan& span) {
  HW_TAKE(findings, findings_of(shop, machine.record.machine.key));
  for (Finding& finding : findings) {
    if (is_in(span, finding.at)) ++standing.findings_made;
    if (finding.settled && is_in(span, finding.settled->at)) ++standing.findings_settled;
    if (finding.severity != Severity::stop_the_machine) continue;
    if (finding.at >= span.month_ends_at || (finding.settled && finding.settled->at <= span.time.begins_at)) continue;
    Failure failure = failure_of(std::move(finding), span);
    HW_TRY(add_counters(failure, shop, machine));
    standing.failures.push_back(std::move(failure));
  }
  std::sort(standing.failures.begin(), standing.failures.end(),
            [](const Failure& a, const Failure& b) { return a.finding.at < b.finding.at; });
  return {};
}

Result<void> add_closed_stops(MonthStanding& standing, const OpenShop& shop, const std::string& machine,
                              const MonthSpan& span) {
  HW_TAKE(stops, shop.store().past_stops(machine, StopState::closed, past_read_max));
  for (Stop& stop : stops) {
    const auto stood = month::within({{stop.closed->began_at, stop.closed->ended_at}}, span.time);
    if (!stood.empty()) standing.stops.push_back({std::move(stop), stood.front()});
  }
  std::reverse(standing.stops.begin(), standing.stops.end());
  return {};
}

// What the operating counter was at the ends of the spans in which the machine stood.
using OperatingAt = std::map<Instant, double>;

OperatingAt operating_at_ends(const MonthStanding& standing, const MonthHours& hours) {
  OperatingAt known;
  for (const Failure& failure : standing.failures) {
    const bool began_before = failure.stood.begins_at != failure.finding.at;
    const auto at_begin = began_before ? operating_in(hours.at_begin) : failure.operating_at_begin;
    const auto at_end = failure.goes_on ? operating_in(hours.at_end) : failure.operating_at_end;
    if (at_begin) known.emplace(failure.stood.begins_at, *at_begin);
    if (at_end) known.emplace(failure.stood.ends_at, *at_end);
  }
  return known;
}

// A program may run on for some time after the finding: those hours are not between failures.
double operated_while_stood(const month::TimeSpans& stood, const OperatingAt& known) {
  double sum = 0;
  for (const month::TimeSpan& one : stood) {
    const auto begin = known.find(one.begins_at);
    const auto end = known.find(one.ends_at);
    if (begin != known.end() && end != known.end()) sum += std::max(0.0, end->second - begin->second);
  }
  return sum;
}

}  // namespace

Result<MonthStanding> standing_in(const OpenShop& shop, const OpenMachine& machine, const MonthSpan& span) {
  MonthStanding standing;
  HW_TRY(add_failures(standing, shop, machine, span));
  HW_TRY(add_closed_stops(standing, shop, machine.record.machine.key, span));
  return standing;
}

void add_standing(month::MonthSums& sums, const MonthStanding& standing, const MonthHours& hours,
                  const month::TimeSpans& planned, double standing_per_hour) {
  month::TimeSpans failed, stopped;
  for (const Failure& failure : standing.failures) {
    failed.push_back(failure.stood);
    if (!failure.is_of_month) continue;
    ++sums.failures;
    sums.repair_h += month::hours_of({failure.stood});
    if (failure.goes_on) ++sums.repairs_going_on;
  }
  for (const ClosedStop& stop : standing.stops) stopped.push_back(stop.stood);
  failed = month::united(std::move(failed));
  stopped = month::without(stopped, failed);
  sums.planned_h += month::hours_of(month::without(planned, stopped));
  sums.corrective_h += month::hours_of(failed);
  sums.stops_h += month::hours_of(stopped);
  const double run_on_h = operated_while_stood(failed, operating_at_ends(standing, hours));
  sums.between_h = std::max(0.0, sums.operating_h - run_on_h);
  sums.failure_cost += standing_per_hour * month::hours_of(month::overlap(failed, planned));
  sums.care_cost += standing_per_hour * month::hours_of(month::overlap(stopped, planned));
}

}  // namespace hw::service
