#include "src/counters/relevant_only.h"

namespace hw::counters {
namespace {

constexpr Duration own_counter_every = Duration::seconds(10);

bool is_same(double a, double b) { return a == b || (is_unknown(a) && is_unknown(b)); }

}  // namespace

RelevantOnly::RelevantOnly(const MachineModel& model, const CountSettings& settings) : items_(model.items.size()) {
  for (std::size_t i = 0; i < items_.size(); ++i) {
    ItemState& item = items_[i];
    const Role role = model.items[i].role;
    item.is_position = role == Role::position;
    item.is_feed = role == Role::path_feed || role == Role::path_rapid || role == Role::axis_feed;
    item.rule = role == Role::none ? Rule::none : Rule::value;
    if (role == Role::own_counter) item.rule = Rule::thinned;
    const bool is_word = role == Role::availability || role == Role::power_state || role == Role::execution;
    if (is_word || role == Role::load) item.rule = Rule::truth;
    if (role == Role::load) {
      item.limit = settings.load_above_percent;
      if (!item.limit) item.rule = Rule::none;
    }
  }
}

Truth RelevantOnly::truth_of(const ItemState& item, double value) {
  if (is_unknown(value)) return Truth::unknown;
  return value > item.limit.value_or(0) ? Truth::yes : Truth::no;
}

bool RelevantOnly::matters(const ItemState& item, const Observation& arrival) const {
  if (item.is_position || !item.last) return true;
  const double before = item.last->value;
  if (item.rule == Rule::truth) return truth_of(item, arrival.value) != truth_of(item, before);
  if (item.rule == Rule::value || is_same(arrival.value, before)) return !is_same(arrival.value, before);
  const bool is_rise = arrival.value > before;  // no: also where one of them is unknown
  return !is_rise || arrival.at - *item.kept_at >= own_counter_every;
}

// What was passed over counts after all: this one has its time or is older, or ends a row of rises.
bool RelevantOnly::revives(const ItemState& item, const Observation& arrival) const {
  if (!item.is_passed_over) return false;
  if (arrival.at <= item.last->at) return true;
  return item.rule == Rule::thinned && !(arrival.value >= item.last->value);
}

void RelevantOnly::pass(const Observation& arrival, std::vector<Observation>& kept) {
  ItemState& item = items_[arrival.item];
  if (item.rule == Rule::none || (item.is_position && feed_is_known_)) return;
  if (item.is_feed && !is_unknown(arrival.value)) feed_is_known_ = true;
  const bool out_of_order = item.last && arrival.at <= item.last->at;
  if (revives(item, arrival)) kept.push_back(*item.last);
  item.is_passed_over = !out_of_order && !matters(item, arrival);
  item.last = arrival;
  if (item.is_passed_over) return;
  item.kept_at = arrival.at;
  kept.push_back(arrival);
}

void RelevantOnly::flush(std::vector<Observation>& kept) {
  for (ItemState& item : items_) {
    if (item.is_passed_over) kept.push_back(*item.last);
    item.is_passed_over = false;
  }
}

}  // namespace hw::counters
