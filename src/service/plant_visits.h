#pragma once
// Visits of the outside service to a plant, as the servers of a group tell each other of them: agreed stops with work
// of its, gathered by day and shift.

#include <string>
#include <vector>

#include "src/service/open_shop.h"

namespace hw::service {

struct GroupVisitStopView {
  std::string stop;     // its id
  std::string machine;  // its name
};
BOOST_DESCRIBE_STRUCT(GroupVisitStopView, (), (stop, machine))

struct GroupVisitView {
  LocalDate on;  // the plant's day
  std::string shift;
  Instant begins_at;
  Instant ends_at;
  std::vector<GroupVisitStopView> stops;
  double work_h = 0;  // of the outside service's people, all together
  double way_h = 0;   // what its coming takes and costs, as the shop says; 0 where it says nothing
  double way_cost = 0;
  std::string currency;
};
BOOST_DESCRIBE_STRUCT(GroupVisitView, (), (on, shift, begins_at, ends_at, stops, work_h, way_h, way_cost, currency))

// Those that are not over, by when they begin.
std::vector<GroupVisitView> outside_visits(const OpenShop& shop, Instant now);

}  // namespace hw::service
