#pragma once
// What the service tells of the stores, in the words and fields of api/openapi.yaml: one struct for one schema there.

#include <optional>
#include <string>
#include <vector>

#include "src/service/forecast_views.h"
#include "src/service/proposal_views.h"
#include "src/service/stores.h"

namespace hw::service {

struct StockWeekView {
  LocalDate from;
  double certain = 0;
  double mean = 0;
  double use_50 = 0;
  double use_95 = 0;
  double arriving = 0;
  double left = 0;
  double left_5 = 0;
};
BOOST_DESCRIBE_STRUCT(StockWeekView, (), (from, certain, mean, use_50, use_95, arriving, left, left_5))

// What is there of a part, promised, on its way.
struct StockView {
  catalogue::StoredPart part;
  int version = 0;
  std::string state;
  double on_hand = 0;
  double difference = 0;
  double too_old = 0;
  double reserved = 0;
  double free = 0;
  double on_order = 0;
  std::optional<LocalDate> next_arrival;
  std::vector<StockWeekView> weeks;
};
BOOST_DESCRIBE_STRUCT(StockView, (),
                      (part, version, state, on_hand, difference, too_old, reserved, free, on_order, next_arrival,
                       weeks))

struct StoresView {
  LocalDate today;
  Instant noon;
  double value = 0;
  std::vector<StockView> parts;
  std::vector<std::string> suppliers;
  std::vector<std::string> nameless;
};
BOOST_DESCRIBE_STRUCT(StoresView, (), (today, noon, value, parts, suppliers, nameless))

struct PartNeedView {
  std::optional<std::string> machine;
  std::optional<std::string> task;
  std::optional<std::string> title;
  std::optional<std::string> stop;
  std::optional<std::string> service;
  double quantity = 0;
  std::optional<LocalDate> on;
  std::optional<QuantilesView> quantiles;
  std::optional<double> per_year;
};
BOOST_DESCRIBE_STRUCT(PartNeedView, (), (machine, task, title, stop, service, quantity, on, quantiles, per_year))

struct StockMoveView {
  std::string entry;
  std::string kind;
  double quantity = 0;
  std::optional<double> change;
  double book = 0;
  double difference = 0;
  std::string by;
  Instant at;
  std::optional<std::string> why;
  std::optional<std::string> machine;
  std::optional<std::string> stop;
  std::optional<std::string> order;
  std::optional<std::vector<std::string>> serials;
  std::optional<LocalDate> best_before;
};
BOOST_DESCRIBE_STRUCT(StockMoveView, (),
                      (entry, kind, quantity, change, book, difference, by, at, why, machine, stop, order, serials,
                       best_before))

struct SerialPlaceView {
  std::string serial;
  std::string where;  // in the stores, taken, scrapped
  std::optional<std::string> machine;
  Instant at;
};
BOOST_DESCRIBE_STRUCT(SerialPlaceView, (), (serial, where, machine, at))

struct StockBatchView {
  double quantity = 0;
  std::optional<LocalDate> best_before;
  std::optional<bool> too_old;
};
BOOST_DESCRIBE_STRUCT(StockBatchView, (), (quantity, best_before, too_old))

struct DeliveryView {
  LocalDate placed_on;
  LocalDate received_on;
  int days = 0;
};
BOOST_DESCRIBE_STRUCT(DeliveryView, (), (placed_on, received_on, days))

struct LeadTimesView {
  double quoted_days = 0;
  std::vector<DeliveryView> deliveries;
  int days_50 = 0;
  int days_90 = 0;
  SentenceView says;
};
BOOST_DESCRIBE_STRUCT(LeadTimesView, (), (quoted_days, deliveries, days_50, days_90, says))

struct PartProposalView {
  std::string part;
  std::string title;
  std::string unit;
  std::optional<std::string> reference;
  double quantity = 0;
  std::optional<double> price;
  LocalDate order_by;
  std::string due;  // too late, today, soon, along
  std::optional<LocalDate> first_need;
  std::optional<double> wanted;
  std::optional<double> chance_if_ordered;
  std::optional<double> chance_if_not;
  std::optional<double> ordering;  // what it costs, as are holding and missing
  std::optional<double> holding;
  std::optional<double> missing;
  std::vector<SentenceView> reasons;
};
BOOST_DESCRIBE_STRUCT(PartProposalView, (),
                      (part, title, unit, reference, quantity, price, order_by, due, first_need, wanted,
                       chance_if_ordered, chance_if_not, ordering, holding, missing, reasons))

struct OrderProposalView {
  std::string supplier;
  std::string due;  // too late, today, soon
  std::optional<LocalDate> order_by;
  std::optional<double> value;
  std::vector<PartProposalView> lines;
};
BOOST_DESCRIBE_STRUCT(OrderProposalView, (), (supplier, due, order_by, value, lines))

struct OrderLineView {
  std::string part;
  std::string title;
  std::string unit;
  std::optional<std::string> reference;
  double quantity = 0;
  double delivered = 0;
  std::optional<double> price;
  std::optional<bool> serial;
};
BOOST_DESCRIBE_STRUCT(OrderLineView, (), (part, title, unit, reference, quantity, delivered, price, serial))

struct OrderView {
  std::string id;
  std::string supplier;
  std::string state;  // open, delivered, ended
  std::string by;
  Instant at;
  std::optional<std::string> reference;
  std::optional<LocalDate> confirmed_on;
  LocalDate expected_50;
  LocalDate expected_90;
  std::vector<OrderLineView> lines;
  std::optional<std::vector<SentenceView>> chase;
  std::optional<std::string> note;
  std::optional<Instant> over_at;
};
BOOST_DESCRIBE_STRUCT(OrderView, (),
                      (id, supplier, state, by, at, reference, confirmed_on, expected_50, expected_90, lines, chase,
                       note, over_at))

struct OrdersView {
  LocalDate today;
  Instant noon;
  std::vector<OrderProposalView> proposals;
  std::vector<OrderView> open;
  std::vector<OrderView> past;
};
BOOST_DESCRIBE_STRUCT(OrdersView, (), (today, noon, proposals, open, past))

struct TaskKitLineView {
  std::string name;
  double quantity = 0;
  std::string unit;
  std::optional<std::string> part;
};
BOOST_DESCRIBE_STRUCT(TaskKitLineView, (), (name, quantity, unit, part))

struct TaskKitView {
  std::string kind;
  std::optional<std::string> machine;
  std::string task;
  std::string title;
  std::vector<TaskKitLineView> lines;
};
BOOST_DESCRIBE_STRUCT(TaskKitView, (), (kind, machine, task, title, lines))

struct KindServiceView {
  std::string kind;
  std::string service;
  std::string title;
  std::string title_de;
};
BOOST_DESCRIBE_STRUCT(KindServiceView, (), (kind, service, title, title_de))

struct KitsView {
  std::vector<catalogue::Kit> kits;
  std::vector<TaskKitView> tasks;
  std::vector<KindServiceView> services;
};
BOOST_DESCRIBE_STRUCT(KitsView, (), (kits, tasks, services))

struct ReadyLineView {
  std::optional<std::string> part;
  std::string name;
  std::optional<std::string> place;
  double quantity = 0;
  std::string unit;
  std::string state;  // taken, reserved, coming, short, not known
  double reserved = 0;
  double taken = 0;
  std::vector<catalogue::KitLine> reserved_of;
  std::vector<catalogue::KitLine> taken_of;
  std::optional<std::string> substitute;
  std::optional<LocalDate> expected;
  std::optional<double> chance;
  std::optional<bool> serial;
  std::vector<std::string> tasks;
};
BOOST_DESCRIBE_STRUCT(ReadyLineView, (),
                      (part, name, place, quantity, unit, state, reserved, taken, reserved_of, taken_of, substitute,
                       expected, chance, serial, tasks))

struct StopReadinessView {
  std::string stop;
  std::string machine;
  LocalDate on;
  std::string shift;
  std::string state;  // ready, coming, short, not known
  std::optional<Instant> taken_at;
  std::vector<ReadyLineView> lines;
};
BOOST_DESCRIBE_STRUCT(StopReadinessView, (), (stop, machine, on, shift, state, taken_at, lines))

struct KitReadinessView {
  std::vector<StopReadinessView> stops;
};
BOOST_DESCRIBE_STRUCT(KitReadinessView, (), (stops))

struct PartStoresView : StockView {
  std::vector<PartNeedView> needs;
  std::vector<StockMoveView> moves;
  std::vector<StockBatchView> batches;
  std::vector<SerialPlaceView> serials;
  std::vector<OrderView> orders;
  LeadTimesView lead_times;
  std::optional<PartProposalView> proposal;
  std::vector<TaskKitView> kits;
  std::vector<SentenceView> assumes;
};
BOOST_DESCRIBE_STRUCT(PartStoresView, (StockView),
                      (needs, moves, batches, serials, orders, lead_times, proposal, kits, assumes))

}  // namespace hw::service
