#include <algorithm>
#include <set>

#include "src/service/lead_times.h"
#include "src/service/stores_cases.h"

namespace hw::service {
namespace {

constexpr int soon_days = 14;

// The chance with which a page's lower edge is kept.
constexpr double high_use = 0.95, middle_use = 0.5;

// Days 0 (today) to the last of each week: the first ends on Sunday.
int last_day_of_week(LocalDate today, int week) { return 7 - iso_weekday(today) + 7 * week; }

double arriving_by(const std::vector<kits::Incoming>& incoming, LocalDate day) {
  double sum = 0;
  for (const kits::Incoming& one : incoming) sum += one.quantity * one.chance_by(day);
  return sum;
}

double certain_between(const kits::Needs& needs, LocalDate first, LocalDate last) {
  double sum = 0;
  for (const kits::CertainNeed& need : needs.certain) sum += first <= need.on && need.on <= last ? need.quantity : 0;
  return sum;
}

std::vector<StockWeekView> weeks_of(const PartOutlook& outlook, const std::vector<kits::Incoming>& incoming,
                                    double on_hand, LocalDate today, int count) {
  std::vector<StockWeekView> weeks;
  for (int week = 0; week < count; ++week) {
    const int last = last_day_of_week(today, week);
    const int first = week == 0 ? 0 : last - 6;
    const double arrived = arriving_by(incoming, today + last);
    StockWeekView view;
    view.from = today + first;
    view.certain = certain_between(outlook.needs->needs, today + first, today + last);
    view.mean = outlook.demand->mean(last) - (first == 0 ? 0 : outlook.demand->mean(first - 1));
    view.use_50 = outlook.demand->quantile(last, middle_use);
    view.use_95 = outlook.demand->quantile(last, high_use);
    view.arriving = arrived - (first == 0 ? 0 : arriving_by(incoming, today + first - 1));
    view.left = on_hand + arrived - outlook.demand->mean(last);
    view.left_5 = on_hand + arrived - view.use_95;
    weeks.push_back(view);
  }
  return weeks;
}

double too_old_on(const kits::Shelf& shelf, LocalDate day) {
  double sum = 0;
  for (const kits::Batch& batch : shelf.batches) {
    if (batch.best_before && *batch.best_before < day) sum += batch.quantity;
  }
  return sum;
}

bool is_to_order(const kits::OrderLine& line) { return line.when != kits::When::later; }

std::string state_of(const PartRecord& part, const PartOutlook& outlook, LocalDate today) {
  if (part.shelf.difference < 0) return "count it";
  if (outlook.is_short) return "short";
  if (outlook.line && is_to_order(*outlook.line)) return "order today";
  if (outlook.line && outlook.line->last_on <= today + soon_days) return "order soon";
  return outlook.needs ? "enough" : "not used";
}

int rank_of_state(const std::string& state) {
  constexpr std::array states = {"count it", "short", "order today", "order soon", "enough", "not used"};
  return static_cast<int>(std::find(states.begin(), states.end(), state) - states.begin());
}

}  // namespace

Instant noon_of(const OpenShop& shop, LocalDate day) {
  return shop.calendar().zone.at(day, shop.record().stopping.stores.noon_minute);
}

StockView stock_view(const OpenShop& shop, const StoresStudy& study, const PartRecord& part, int weeks) {
  static const PartOutlook unknown;
  const auto there = study.outlooks.find(part.part.number);
  const PartOutlook& outlook = there == study.outlooks.end() ? unknown : there->second;
  const auto incoming = incoming_of(shop, part.part, study.today);
  StockView view;
  view.part = part.part;
  view.version = part.version;
  view.state = state_of(part, outlook, study.today);
  view.on_hand = kits::good_on(part.shelf, study.today);
  view.difference = part.shelf.difference;
  view.too_old = too_old_on(part.shelf, study.today);
  view.reserved = outlook.reserved;
  view.free = std::max(0.0, view.on_hand - view.reserved);
  for (const kits::Incoming& one : incoming) view.on_order += one.quantity;
  if (!incoming.empty()) view.next_arrival = incoming.front().expected_on;
  if (outlook.demand) view.weeks = weeks_of(outlook, incoming, view.on_hand, study.today, weeks);
  return view;
}

Result<StoresView> show_stores(const OpenShop& shop, StoresStudies& studies, Instant now) {
  HW_TAKE(study, studies.at(now));
  const auto lock = shop.look();
  StoresView view;
  view.today = study->today;
  view.noon = noon_of(shop, study->today);
  std::set<std::string> suppliers;
  for (const auto& [number, part] : shop.stores().parts()) {
    if (part.is_ended) continue;
    view.parts.push_back(stock_view(shop, *study, part, weeks_listed));
    view.value += part.shelf.book * part.part.price.value_or(0);
    if (part.part.supplier) suppliers.insert(*part.part.supplier);
  }
  std::stable_sort(view.parts.begin(), view.parts.end(), [](const StockView& one, const StockView& other) {
    return rank_of_state(one.state) < rank_of_state(other.state);
  });
  view.suppliers.assign(suppliers.begin(), suppliers.end());
  for (const auto& [name, unit] : nameless_parts(shop)) view.nameless.push_back(name);
  return view;
}

}  // namespace hw::service
