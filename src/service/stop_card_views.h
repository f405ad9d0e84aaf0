#pragma once
// What the job card of a stop shows, in the words and fields of api/openapi.yaml: one struct for one schema there.

#include <string>
#include <vector>

#include "src/service/isolation_text.h"
#include "src/service/stop_views.h"
#include "src/service/stores_views.h"

namespace hw::service {

struct CardMachineView {
  std::string key;
  std::string name;
  std::string kind;
  std::string cell;
};
BOOST_DESCRIBE_STRUCT(CardMachineView, (), (key, name, kind, cell))

struct CardWorkView {
  std::string task;
  int person = 1;            // 1 or 2, of two
  double begin_minutes = 0;  // from the stop's beginning, with two people
  bool alone = false;        // nobody else works at the machine meanwhile
  std::vector<std::string> after;
};
BOOST_DESCRIBE_STRUCT(CardWorkView, (), (task, person, begin_minutes, alone, after))

// The works in one energy state, and the change by which it is reached.
struct CardPhaseView {
  std::string energy;
  std::string change;  // none, shut down, isolate, release, restart
  std::vector<CardWorkView> works;
};
BOOST_DESCRIBE_STRUCT(CardPhaseView, (), (energy, change, works))

struct CardOrderView {
  int state_changes = 0;
  double walk_sides = 0;
  double minutes_one = 0;
  double minutes_two = 0;
  std::vector<CardPhaseView> phases;
};
BOOST_DESCRIBE_STRUCT(CardOrderView, (), (state_changes, walk_sides, minutes_one, minutes_two, phases))

struct KitPartView {
  std::string name;
  double quantity = 0;
  std::string unit;
  std::vector<std::string> tasks;
  std::optional<std::string> part;   // its number, where the stores keep it
  std::optional<std::string> place;  // where it lies
};
BOOST_DESCRIBE_STRUCT(KitPartView, (), (name, quantity, unit, tasks, part, place))

struct IsolationStepView {
  std::string code;
  std::string text;
  std::string text_de;
};
BOOST_DESCRIBE_STRUCT(IsolationStepView, (), (code, text, text_de))

struct CautionView {
  std::string text;
  std::string text_de;
};
BOOST_DESCRIBE_STRUCT(CautionView, (), (text, text_de))

// What is known of the machine's kind; the builder's manual goes before it.
struct IsolationView {
  std::vector<IsolationPointText> points;
  std::vector<StoredEnergyText> stored;
  std::vector<IsolationStepView> steps;
  std::vector<IsolationStepView> way_back;
  std::vector<CautionView> cautions;
};
BOOST_DESCRIBE_STRUCT(IsolationView, (), (points, stored, steps, way_back, cautions))

struct CardServiceView {
  std::string key;
  std::string title;
  std::string title_de;
};
BOOST_DESCRIBE_STRUCT(CardServiceView, (), (key, title, title_de))

struct StopCardView {
  StopView stop;
  CardMachineView machine;
  CardOrderView order;
  std::vector<TaskView> tasks;  // in the order of work
  std::vector<KitPartView> kit;
  IsolationView isolation;
  std::vector<FindingView> findings;  // open ones that a task of the stop will settle
  std::optional<CardServiceView> service;
  std::optional<StopReadinessView> readiness;
};
BOOST_DESCRIBE_STRUCT(StopCardView, (), (stop, machine, order, tasks, kit, isolation, findings, service, readiness))

}  // namespace hw::service
