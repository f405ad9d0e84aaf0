#include <algorithm>

#include "libs/formats/enum_words.h"
#include "src/service/lead_times.h"
#include "src/service/make_views.h"
#include "src/service/stores_cases.h"

namespace hw::service {
namespace {

constexpr std::size_t moves_shown = 200;

QuantilesView quantiles_view(const due::DueDistribution& due) {
  const auto all = due::quantiles(due);
  QuantilesView view;
  OrNull<LocalDate>* const places[] = {&view.p05, &view.p10, &view.p25, &view.p50, &view.p75, &view.p90, &view.p95};
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i]) *places[i] = *all[i];
  }
  return view;
}

PartNeedView need_view(const NeedTold& need) {
  PartNeedView view{.machine = need.machine,
                    .task = need.task,
                    .title = need.title,
                    .stop = need.stop,
                    .service = need.service,
                    .quantity = need.quantity,
                    .on = need.on,
                    .quantiles = {},
                    .per_year = need.times_a_year};
  if (!need.due.empty()) view.quantiles = quantiles_view(need.due);
  return view;
}

// What is certain first, then what falls due, then what only comes so often a year.
LocalDate first_day(const NeedTold& need) {
  constexpr int far = 1'000'000;
  if (need.on) return *need.on;
  const auto median = due::quantile(need.due, 0.5);
  return median ? *median : LocalDate{} + far;
}

std::vector<PartNeedView> need_views(const PartOutlook& outlook) {
  if (outlook.needs == nullptr) return {};
  std::vector<NeedTold> needs = outlook.needs->told;
  std::stable_sort(needs.begin(), needs.end(),
                   [](const NeedTold& one, const NeedTold& other) { return first_day(one) < first_day(other); });
  std::vector<PartNeedView> views;
  for (const NeedTold& need : needs) views.push_back(need_view(need));
  return views;
}

StockMoveView move_view(const PartRecord& part, std::size_t i) {
  const kits::StockMove& move = part.moves[i];
  const MoveTold& told = part.told[i];
  StockMoveView view{.entry = told.entry,
                     .kind = formats::print_word(move.kind),
                     .quantity = move.quantity,
                     .change = {},
                     .book = part.shelf.steps[i].book,
                     .difference = part.shelf.steps[i].difference,
                     .by = told.by,
                     .at = move.at,
                     .why = told.why,
                     .machine = {},
                     .stop = told.stop,
                     .order = told.order,
                     .serials = {},
                     .best_before = move.best_before};
  if (move.kind == kits::MovementKind::counted) view.change = part.shelf.steps[i].change;
  if (!told.machine.empty()) view.machine = told.machine;
  if (!move.serials.empty()) view.serials = move.serials;
  return view;
}

std::string where_is(kits::MovementKind last) {
  if (last == kits::MovementKind::taken) return "taken";
  return last == kits::MovementKind::scrapped ? "scrapped" : "in the stores";
}

std::vector<SerialPlaceView> serial_views(const PartRecord& part) {
  std::vector<SerialPlaceView> views;
  for (const auto& [serial, standing] : part.shelf.serials) {
    const std::string& machine = part.told[standing.move].machine;
    SerialPlaceView view{serial, where_is(standing.kind), {}, part.moves[standing.move].at};
    if (!machine.empty() && standing.kind == kits::MovementKind::taken) view.machine = machine;
    views.push_back(std::move(view));
  }
  return views;
}

LeadTimesView lead_times_view(const OpenShop& shop, const catalogue::StoredPart& part) {
  const auto lead = lead_time_of(shop, part);
  const Sentence working = lead.working();
  LeadTimesView view{quoted_days(part), {}, lead.quantile(0.5), lead.quantile(0.9), {working.text, working.saying}};
  for (const auto& delivery : shop.stores().deliveries_of(part.number)) {
    const LocalDate placed_on = shop.calendar().zone.date_of(delivery.placed_at);
    const LocalDate received_on = shop.calendar().zone.date_of(delivery.received_at);
    view.deliveries.push_back({placed_on, received_on, received_on - placed_on});
  }
  return view;
}

std::optional<PartProposalView> proposal_of(const OpenShop& shop, const StoresStudy& study, std::string_view number) {
  for (const OrderProposalView& order : order_proposals(shop, study)) {
    for (const PartProposalView& line : order.lines) {
      if (line.part == number) return line;
    }
  }
  return std::nullopt;
}

std::vector<SentenceView> assumptions(const OpenShop& shop, const StoresStudy& study, const PartRecord& part) {
  std::vector<SentenceView> all;
  const auto assume = [&](Saying saying, std::string text) { all.push_back({std::move(text), std::move(saying)}); };
  if (!part.part.price) {
    const auto& parts = study.ahead.parts;
    const auto there =
        std::find_if(parts.begin(), parts.end(), [&](const auto& one) { return one.key == part.part.number; });
    const double price = there == parts.end() ? price_unsaid : there->price;
    assume({"price-assumed", {}, {{"price", price}}},
           fmt::format("nobody said what it costs; reckoned with {:g}, the middle of the prices known", price));
  }
  if (!part.part.lead_days) {
    assume({"lead-assumed", {}, {{"days", lead_days_unsaid}}},
           fmt::format("nobody said how long it takes; begun with {:g} days", lead_days_unsaid));
  }
  const double wanted = part.part.wanted.value_or(shop.record().stopping.stores.wanted);
  assume({"wanted-chance", {}, {{"chance", 100 * wanted}}},
         fmt::format("wanted: no stop lacks a part of its kit, with a chance of {:g} %", 100 * wanted));
  assume({"needs-assumed"}, "tasks take their parts when they fall due, each cycle anew; needs are independent");
  return all;
}

}  // namespace

Result<PartStoresView> show_stored_part(const OpenShop& shop, StoresStudies& studies, std::string_view number,
                                        Instant now) {
  HW_TAKE(study, studies.at(now));
  const auto lock = shop.look();
  const PartRecord* part = shop.stores().part(number);
  if (part == nullptr) {
    return refuse(ErrorCode::not_found, Saying{"no-stored-part", {{"part", std::string{number.substr(0, 60)}}}},
                  "the stores do not keep \"{}\"", number.substr(0, 60));
  }
  PartStoresView view;
  static_cast<StockView&>(view) = stock_view(shop, *study, *part, weeks_looked_ahead);
  const auto outlook = study->outlooks.find(number);
  if (outlook != study->outlooks.end()) view.needs = need_views(outlook->second);
  for (std::size_t i = part->moves.size(); i > 0 && view.moves.size() < moves_shown; --i) {
    view.moves.push_back(move_view(*part, i - 1));
  }
  for (const kits::Batch& batch : part->shelf.batches) {
    view.batches.push_back({batch.quantity, batch.best_before, {}});
    if (batch.best_before && *batch.best_before < study->today) view.batches.back().too_old = true;
  }
  view.serials = serial_views(*part);
  for (const OrderRecord* order : shop.stores().open_orders_of(number)) {
    view.orders.push_back(order_view(shop, *order, now));
  }
  view.lead_times = lead_times_view(shop, part->part);
  view.proposal = proposal_of(shop, *study, number);
  for (TaskKitView& kit : kits_view(shop).tasks) {
    const auto is_it = [&](const TaskKitLineView& line) { return line.part == number; };
    if (std::any_of(kit.lines.begin(), kit.lines.end(), is_it)) view.kits.push_back(std::move(kit));
  }
  view.assumes = assumptions(shop, *study, *part);
  return view;
}

}  // namespace hw::service
