#pragma once
// What has to be decided today, in the words and fields of api/openapi.yaml.

#include <optional>
#include <string>
#include <vector>

#include "src/copies/copy_state.h"
#include "src/service/forecast_views.h"
#include "src/service/lives_views.h"
#include "src/service/reading_views.h"
#include "src/service/round_views.h"
#include "src/service/stores_views.h"

namespace hw::service {

struct CopiesView {
  copies::Concern concern = copies::Concern::none;  // never none in a view
  std::optional<Instant> last_good_at;
  std::optional<std::string> says;
};
BOOST_DESCRIBE_STRUCT(CopiesView, (), (concern, last_good_at, says))

// One thing to decide, about what its kind says: finding, task, counter, round, stop, reading, stray, interval, order,
// kit, shelf, copies.
struct TodayItemView {
  std::string kind;
  std::optional<std::string> machine;
  std::optional<FindingView> finding;
  std::optional<TaskView> task;
  std::optional<ForecastView> forecast;
  std::optional<LocalDate> overdue_since;
  std::optional<FeedView> feed;
  std::optional<Instant> silent_since;
  std::optional<std::string> rhythm;
  std::optional<TurnView> turn;
  std::optional<StopView> stop;
  std::optional<ReadingLineView> reading;
  std::optional<int> count;
  std::optional<PartView> part;
  std::optional<OrderProposalView> order;
  std::optional<Instant> noon;
  std::optional<StopReadinessView> kit;
  std::optional<StockView> shelf;
  std::optional<CopiesView> copies;
};
BOOST_DESCRIBE_STRUCT(TodayItemView, (),
                      (kind, machine, finding, task, forecast, overdue_since, feed, silent_since, rhythm, turn, stop,
                       reading, count, part, order, noon, kit, shelf, copies))

struct TodayView {
  Instant now;
  LocalDate today;
  std::vector<TodayItemView> items;
};
BOOST_DESCRIBE_STRUCT(TodayView, (), (now, today, items))

}  // namespace hw::service
