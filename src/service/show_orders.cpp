#include <algorithm>

#include "src/service/lead_times.h"
#include "src/service/stores_cases.h"

namespace hw::service {
namespace {

constexpr std::size_t past_orders_shown = 100;
constexpr int proposed_days_ahead = 14;

std::optional<std::string> reference_of(const catalogue::StoredPart& part, const std::string& supplier) {
  for (const auto& one : part.references.value_or(std::vector<catalogue::SupplierReference>{})) {
    if (one.supplier == supplier) return one.reference;
  }
  return std::nullopt;
}

std::string due_word(kits::When when) {
  if (when == kits::When::late) return "too late";
  return when == kits::When::today ? "today" : "soon";
}

// A line that could wait longer than its order joins it.
std::string due_of(const kits::OrderLine& line, const kits::ProposedOrder& order) {
  return line.when == kits::When::later && line.last_on > order.order_on ? "along" : due_word(line.when);
}

PartProposalView line_view(const catalogue::StoredPart& part, const kits::OrderLine& line,
                           const kits::ProposedOrder& order, double wanted) {
  PartProposalView view{.part = part.number,
                        .title = part.title,
                        .unit = part.unit,
                        .reference = reference_of(part, part.supplier.value_or("")),
                        .quantity = line.quantity,
                        .price = part.price,
                        .order_by = line.last_on,
                        .due = due_of(line, order),
                        .first_need = line.short_on,
                        .wanted = wanted,
                        .chance_if_ordered = line.chance_now,
                        .chance_if_not = line.chance_without,
                        .ordering = line.costs.ordering,
                        .holding = line.costs.holding,
                        .missing = line.costs.missing,
                        .reasons = {}};
  for (const Sentence& reason : line.reasons) view.reasons.push_back({reason.text, reason.saying});
  return view;
}

OrderLineView ordered_line(const Stores& stores, const OrderRecord& order, const OrderLineText& line) {
  OrderLineView view{.part = line.part,
                     .title = {},
                     .unit = {},
                     .reference = {},
                     .quantity = line.quantity,
                     .delivered = 0,
                     .price = line.price,
                     .serial = {}};
  const auto there = stores.parts().find(line.part);
  if (there != stores.parts().end()) {
    view.title = there->second.part.title;
    view.unit = there->second.part.unit;
    view.reference = reference_of(there->second.part, order.text.supplier);
    if (there->second.part.serial.value_or(false)) view.serial = true;
  }
  const auto delivered = order.delivered.find(line.part);
  if (delivered != order.delivered.end()) view.delivered = delivered->second;
  return view;
}

// When all of it is expected: the latest of its lines.
void set_expected(OrderView& view, const OpenShop& shop, const OrderRecord& order, LocalDate today) {
  const LocalDate placed_on = shop.calendar().zone.date_of(order.at);
  view.expected_50 = view.expected_90 = today;
  for (const OrderLineText& line : order.text.lines) {
    const auto part = shop.stores().parts().find(line.part);
    if (order.outstanding(line.part) <= 0 || part == shop.stores().parts().end()) continue;
    const kits::LeadTime lead = lead_time_of(shop, part->second.part);
    view.expected_50 = std::max(view.expected_50, expected_on(order, lead, placed_on, today, 0.5));
    view.expected_90 = std::max(view.expected_90, expected_on(order, lead, placed_on, today, 0.9));
  }
}

}  // namespace

OrderView order_view(const OpenShop& shop, const OrderRecord& order, Instant now) {
  OrderView view{.id = order.id,
                 .supplier = order.text.supplier,
                 .state = order.is_open()  ? "open"
                          : order.ended_at ? "ended"
                                           : "delivered",
                 .by = order.by,
                 .at = order.at,
                 .reference = order.text.reference,
                 .confirmed_on = order.text.confirmed_on,
                 .expected_50 = {},
                 .expected_90 = {},
                 .lines = {},
                 .chase = {},
                 .note = order.text.note,
                 .over_at = {}};
  for (const OrderLineText& line : order.text.lines) view.lines.push_back(ordered_line(shop.stores(), order, line));
  set_expected(view, shop, order, shop.calendar().zone.date_of(now));
  if (!order.is_open()) view.over_at = order.ended_at ? order.ended_at : order.delivered_at;
  return view;
}

std::vector<OrderProposalView> order_proposals(const OpenShop& shop, const StoresStudy& study) {
  std::vector<OrderProposalView> proposals;
  for (const kits::ProposedOrder& order : study.proposal.orders) {
    if (order.order_on > study.today + proposed_days_ahead) continue;
    OrderProposalView view;
    view.supplier = study.suppliers[order.supplier];
    view.due = due_word(order.when);
    view.order_by = order.order_on;
    for (const kits::OrderLine& line : order.lines) {
      const kits::PartAhead& ahead = study.ahead.parts[line.part];
      const PartRecord* part = shop.stores().part(ahead.key);
      if (part == nullptr) continue;
      view.lines.push_back(line_view(part->part, line, order, ahead.wanted));
      if (part->part.price) view.value = view.value.value_or(0) + line.quantity * *part->part.price;
    }
    if (!view.lines.empty()) proposals.push_back(std::move(view));
  }
  return proposals;
}

namespace {

// What is to be asked stands at the first open order that has the part.
void add_chases(OrdersView& view, const StoresStudy& study) {
  for (const kits::OrderToChase& one : study.proposal.to_chase) {
    const std::string& number = study.ahead.parts[one.part].key;
    const auto has_it = [&](const OrderView& order) {
      return std::any_of(order.lines.begin(), order.lines.end(), [&](const OrderLineView& line) {
        return line.part == number && line.delivered < line.quantity;
      });
    };
    const auto order = std::find_if(view.open.begin(), view.open.end(), has_it);
    if (order == view.open.end()) continue;
    if (!order->chase) order->chase.emplace();
    order->chase->push_back({one.says.text, one.says.saying});
  }
}

}  // namespace

Result<OrdersView> show_orders(const OpenShop& shop, StoresStudies& studies, Instant now) {
  HW_TAKE(study, studies.at(now));
  const auto lock = shop.look();
  OrdersView view;
  view.today = study->today;
  view.noon = noon_of(shop, study->today);
  view.proposals = order_proposals(shop, *study);
  for (const auto& [id, order] : shop.stores().orders()) {
    (order.is_open() ? view.open : view.past).push_back(order_view(shop, order, now));
  }
  const auto comes_first = [](const OrderView& one, const OrderView& other) {
    return one.expected_90 < other.expected_90;
  };
  std::stable_sort(view.open.begin(), view.open.end(), comes_first);
  add_chases(view, *study);
  std::stable_sort(view.past.begin(), view.past.end(),
                   [](const OrderView& one, const OrderView& other) { return one.at > other.at; });
  if (view.past.size() > past_orders_shown) view.past.resize(past_orders_shown);
  return view;
}

}  // namespace hw::service
