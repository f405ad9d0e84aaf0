#include "src/kits/propose_orders.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "src/kits/joint_order.h"
#include "src/kits/line_choice.h"
#include "src/kits/line_reasons.h"

namespace hw::kits {
namespace {

constexpr int shown_days = 28;

// A part that has to be ordered some day, with what it is chosen from.
struct Candidate {
  std::size_t part = 0;
  StockCover cover;
  LineChoice choice;
};

double holding_per_unit_day(const StoresAhead& stores, const PartAhead& part) {
  return part.price * stores.holding_rate_per_year / 365;
}

void look_for_late_orders(StoresProposal& proposal, std::size_t part, const StockCover& cover) {
  const double chance = proposal.chances[part], wanted = cover.part().wanted;
  if (cover.part().open.empty() || chance >= wanted) return;
  if (cover.demand().within(shown_days - 1, cover.position()) < wanted) return;
  const double percent = percent_reached(chance);
  proposal.to_chase.push_back(
      {part, chance,
       sentence({"chase-open-order", {}, {{"chance", percent}, {"days", double(shown_days)}}},
                "what is ordered is enough, but may come too late: {:g} % for the needs of the next {} d", percent,
                shown_days)});
}

// What one supplier's parts need, each by itself; in the order of their last days.
std::vector<Candidate> candidates_of(const StoresAhead& stores, std::span<const std::size_t> parts,
                                     StoresProposal& proposal) {
  std::vector<Candidate> candidates;
  for (const std::size_t n : parts) {
    const PartAhead& part = stores.parts[n];
    StockCover cover(part, stores.leads[part.lead], stores.today, stores.days);
    proposal.chances[n] = cover.met_until(shown_days - 1, 0);
    look_for_late_orders(proposal, n, cover);
    const OrderingTerms terms{holding_per_unit_day(stores, part),
                              part.line_cost + stores.suppliers[part.supplier].order_cost};
    auto choice = choose_line(cover, terms);
    if (choice) candidates.push_back({n, std::move(cover), std::move(*choice)});
  }
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.choice.last_day < b.choice.last_day; });
  return candidates;
}

JointOrder join_candidates(const StoresAhead& stores, const std::vector<Candidate>& candidates) {
  std::vector<Joiner> joiners;
  const double order_cost = stores.suppliers[candidates.front().cover.part().supplier].order_cost;
  for (const Candidate& one : candidates) {
    const PartAhead& part = one.cover.part();
    const Lot& lot = cheapest(one.choice.lots, part.line_cost + order_cost);
    joiners.push_back({one.choice.order_day, lot.days, lot.quantity * holding_per_unit_day(stores, part)});
  }
  return join_order(joiners, order_cost, stores.days);
}

// What costs less ordered some days ago is not late yet: that is only what comes too late with the wanted chance.
When when_of(const Candidate& one) {
  if (one.choice.last_day > 0) return When::later;
  const bool is_in_time = one.cover.until_delivery(0, one.cover.position()) >= one.cover.part().wanted - 1e-12;
  return is_in_time ? When::today : When::late;
}

void judge_chances(OrderLine& line, const Candidate& one, LocalDate today) {
  const StockCover& cover = one.cover;
  const int end = cover.demand().days() - 1;
  const double wanted = cover.part().wanted;
  const int short_day = cover.short_day(wanted).value_or(end);
  const int judged = std::min(std::max(short_day, one.choice.order_day + cover.lead().quantile(wanted)), end);
  line.short_on = today + short_day;
  line.judged_until = today + judged;
  line.chance_now = cover.met_until(judged, line.quantity);
  line.chance_without = cover.met_until(judged, 0);
}

OrderLine line_of(const StoresAhead& stores, const Candidate& one, const JointOrder& joint) {
  const PartAhead& part = one.cover.part();
  const double order_cost = stores.suppliers[part.supplier].order_cost;
  const double ordering = part.line_cost + order_cost / static_cast<double>(joint.count);
  const Lot& lot = cheapest(one.choice.lots, ordering);
  OrderLine line;
  line.part = one.part;
  line.quantity = lot.quantity;
  line.when = when_of(one);
  line.last_on = stores.today + one.choice.order_day;
  judge_chances(line, one, stores.today);
  const double held_longer = lot.quantity * holding_per_unit_day(stores, part) * (one.choice.order_day - joint.day);
  const double missing = part.rush_cost * (1 - one.cover.until_delivery(joint.day, one.cover.position())) + lot.missing;
  line.costs = {lot.quantity * part.price, ordering, lot.holding + held_longer + lot.wasted, missing};
  const int last = one.cover.demand().days() - 1;
  LineFacts facts{
      one.cover, one.choice, line, stores.today, line.judged_until - stores.today, one.choice.order_day > joint.day};
  if (part.shelf_life_days) {
    const int end = joint.day + one.cover.lead().quantile(0.5) + *part.shelf_life_days;
    const double unused = one.cover.demand().within(std::min(end, last), one.cover.position() + lot.quantity - 1e-3);
    facts.used_in_time = 1 - unused;
  }
  line.reasons = reasons_of(facts);
  return line;
}

ProposedOrder order_of(const StoresAhead& stores, std::size_t supplier, const std::vector<Candidate>& candidates) {
  const JointOrder joint = join_candidates(stores, candidates);
  ProposedOrder order;
  order.supplier = supplier;
  order.order_on = stores.today + joint.day;
  order.order_cost = stores.suppliers[supplier].order_cost;
  order.when = When::later;
  for (std::size_t n = 0; n < joint.count; ++n) {
    order.lines.push_back(line_of(stores, candidates[n], joint));
    order.when = std::min(order.when, order.lines.back().when);
  }
  return order;
}

}  // namespace

Result<StoresProposal> propose(const StoresAhead& stores) {
  HW_TRY(check(stores));
  std::vector<std::vector<std::size_t>> parts_of(stores.suppliers.size());
  for (std::size_t n = 0; n < stores.parts.size(); ++n) parts_of[stores.parts[n].supplier].push_back(n);
  StoresProposal proposal;
  proposal.chances.assign(stores.parts.size(), 1);
  for (std::size_t supplier = 0; supplier < stores.suppliers.size(); ++supplier) {
    const std::vector<Candidate> candidates = candidates_of(stores, parts_of[supplier], proposal);
    if (!candidates.empty()) proposal.orders.push_back(order_of(stores, supplier, candidates));
  }
  std::stable_sort(proposal.orders.begin(), proposal.orders.end(),
                   [](const ProposedOrder& a, const ProposedOrder& b) { return a.order_on < b.order_on; });
  return proposal;
}

}  // namespace hw::kits
