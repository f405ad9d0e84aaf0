#pragma once
// What the service tells of a stop that is tried, and of proposals, in the words and fields of api/openapi.yaml; and
// what people ask for. One struct for one schema there.

#include <optional>
#include <string>
#include <vector>

#include "src/service/edits.h"
#include "src/service/views.h"

namespace hw::service {

struct StopTryView {
  std::string machine;
  LocalDate on;
  std::string shift;
  std::vector<std::string> tasks;
  std::optional<std::string> stop;  // that is being moved
};
BOOST_DESCRIBE_STRUCT(StopTryView, (), (machine, on, shift, tasks, stop))

struct TryCostView {
  double set_up = 0;
  double standing = 0;
  double premium = 0;
  double overtime = 0;
  double timing = 0;
  double travel = 0;
  double total = 0;
};
BOOST_DESCRIBE_STRUCT(TryCostView, (), (set_up, standing, premium, overtime, timing, travel, total))

// Of the outside service: what the stop pays and takes for the way, nothing where it comes for others anyway.
struct TriedVisitView {
  double cost = 0;
  double hours = 0;
  std::vector<std::string> machines;  // for which it comes then too, by their names
};
BOOST_DESCRIBE_STRUCT(TriedVisitView, (), (cost, hours, machines))

struct TriedTaskView {
  std::string task;
  double chance_due_before = 0;
  double early_days = 0;
  double late_days = 0;
  double loss = 0;
};
BOOST_DESCRIBE_STRUCT(TriedTaskView, (), (task, chance_due_before, early_days, late_days, loss))

struct TriedPeopleView {
  std::string skill;
  double wants_h = 0;
  double has_h = 0;
  double overtime_h = 0;
};
BOOST_DESCRIBE_STRUCT(TriedPeopleView, (), (skill, wants_h, has_h, overtime_h))

struct SentenceView {
  std::string text;
  Saying saying;
};
BOOST_DESCRIBE_STRUCT(SentenceView, (), (text, saying))

struct StopEstimateView {
  std::string currency;
  TryCostView cost;
  double early_loss = 0;
  double late_loss = 0;
  double standing_hours = 0;
  double hours_over_shift = 0;
  std::vector<TriedTaskView> tasks;
  std::vector<TriedPeopleView> people;
  std::vector<PartText> parts;
  std::optional<TriedVisitView> visit;
  std::vector<SentenceView> troubles;
};
BOOST_DESCRIBE_STRUCT(StopEstimateView, (),
                      (currency, cost, early_loss, late_loss, standing_hours, hours_over_shift, tasks, people, parts,
                       visit, troubles))

struct ProposalEdit : Signature {
  std::optional<std::string> what;  // all, services
  std::optional<int> weeks;
  std::optional<double> seconds;
  std::optional<std::string> moving;  // fixed, priced
};
BOOST_DESCRIBE_STRUCT(ProposalEdit, (Signature), (what, weeks, seconds, moving))

struct AcceptEdit : Signature {
  std::vector<std::string> differences;  // their keys
};
BOOST_DESCRIBE_STRUCT(AcceptEdit, (Signature), (differences))

struct PlanMoneyView {
  double stops = 0;
  double lost_production = 0;
  double labour_premium = 0;
  double overtime = 0;
  double timing = 0;
  double end = 0;
  std::optional<double> moving;
  std::optional<double> travel;
  double total = 0;
};
BOOST_DESCRIBE_STRUCT(PlanMoneyView, (),
                      (stops, lost_production, labour_premium, overtime, timing, end, moving, travel, total))

struct PlanSumView {
  PlanMoneyView cost;
  int stops = 0;
  double standing_h = 0;
};
BOOST_DESCRIBE_STRUCT(PlanSumView, (), (cost, stops, standing_h))

struct RuleCostView {
  std::string rule;
  double cost = 0;
  double saving_share = 0;  // of what the rule costs
};
BOOST_DESCRIBE_STRUCT(RuleCostView, (), (rule, cost, saving_share))

struct StopPlaceView {
  LocalDate on;
  std::string shift;
};
BOOST_DESCRIBE_STRUCT(StopPlaceView, (), (on, shift))

struct DifferenceView {
  std::string key;
  std::string kind;
  std::string machine;
  std::optional<std::string> stop;
  std::optional<StopPlaceView> from;
  std::optional<LocalDate> on;
  std::optional<std::string> shift;
  std::string energy;
  std::vector<std::string> tasks;
  std::optional<std::string> service;
  double minutes = 0;
  double saving = 0;
  std::vector<SentenceView> reasons;
  bool accepted = false;
};
BOOST_DESCRIBE_STRUCT(DifferenceView, (),
                      (key, kind, machine, stop, from, on, shift, energy, tasks, service, minutes, saving, reasons,
                       accepted))

struct WithoutPlaceView {
  std::string machine;
  std::optional<std::string> task;
  std::optional<std::string> service;
  std::string text;
  Saying saying;
  std::vector<SentenceView> ways;
};
BOOST_DESCRIBE_STRUCT(WithoutPlaceView, (), (machine, task, service, text, saying, ways))

struct LaterServiceView {
  std::string machine;
  std::string service;
  LocalDate due_on;
};
BOOST_DESCRIBE_STRUCT(LaterServiceView, (), (machine, service, due_on))

struct ProposalView {
  std::string id;
  std::string by;
  Instant asked_at;
  std::string state;
  double share = 0;
  double seconds = 0;
  int weeks = 0;
  std::string what;
  std::optional<std::string> currency;
  std::optional<PlanMoneyView> cost;
  std::optional<double> bound;
  std::optional<double> gap;
  std::optional<PlanSumView> now;
  std::optional<PlanSumView> then;
  std::optional<double> saving;
  std::optional<std::string> rule;
  std::optional<std::vector<RuleCostView>> rules;
  std::optional<std::vector<DifferenceView>> differences;
  std::optional<std::vector<WithoutPlaceView>> without_place;
  std::optional<std::vector<LaterServiceView>> later;
  std::optional<std::string> says;
};
BOOST_DESCRIBE_STRUCT(ProposalView, (),
                      (id, by, asked_at, state, share, seconds, weeks, what, currency, cost, bound, gap, now, then,
                       saving, rule, rules, differences, without_place, later, says))

}  // namespace hw::service
