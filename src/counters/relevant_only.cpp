#include "src/counters/relevant_only.h"

#include <algorithm>

#include "src/counters/state_archive.h"

namespace hw::counters {
namespace {

constexpr Duration own_counter_every = Duration::seconds(10);
constexpr std::size_t passed_over_max = 64;

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
  if (item.is_position || !item.holds || is_unknown(arrival.value)) return true;
  const double before = *item.holds;
  if (item.rule == Rule::truth) return truth_of(item, arrival.value) != truth_of(item, before);
  if (item.rule == Rule::value || is_same(arrival.value, before)) return !is_same(arrival.value, before);
  const bool is_rise = arrival.value > before;  // no: also where one of them is unknown
  return !is_rise || arrival.at - *item.kept_at >= own_counter_every;
}

// The last arrival of the item where that was passed over.
const Observation* RelevantOnly::passed_over_last(const ItemState& item) {
  if (item.passed_over.empty()) return nullptr;
  const Observation& last = item.passed_over.back();
  return !item.kept_at || last.at > *item.kept_at ? &last : nullptr;
}

// What was passed over counts after all where this one has its time or is older, and the last where this one ends a row
// of rises.
void RelevantOnly::revive(ItemState& item, const Observation& arrival, std::vector<Observation>& kept) {
  std::vector<Observation>& passed = item.passed_over;
  auto first = std::find_if(passed.begin(), passed.end(), [&](const Observation& o) { return arrival.at <= o.at; });
  const Observation* last = passed_over_last(item);
  const bool ends_rises = item.rule == Rule::thinned && last != nullptr && !(arrival.value >= last->value);
  if (ends_rises && first == passed.end()) --first;
  kept.insert(kept.end(), first, passed.end());
  passed.erase(first, passed.end());
}

void RelevantOnly::pass(const Observation& arrival, std::vector<Observation>& kept) {
  ItemState& item = items_[arrival.item];
  if (item.rule == Rule::none || (item.is_position && feed_is_known_)) return;
  if (item.is_feed && !is_unknown(arrival.value)) feed_is_known_ = true;
  const bool out_of_order = item.latest_at && arrival.at <= *item.latest_at;
  if (!out_of_order && !matters(item, arrival)) {
    pass_over(item, arrival);
  } else {
    revive(item, arrival, kept);
    item.kept_at = arrival.at;
    kept.push_back(arrival);
  }
  item.holds = out_of_order ? std::nullopt : std::optional(arrival.value);
  if (!out_of_order) item.latest_at = arrival.at;
}

void RelevantOnly::pass_over(ItemState& item, const Observation& arrival) {
  if (item.passed_over.size() == passed_over_max) item.passed_over.erase(item.passed_over.begin());
  item.passed_over.push_back(arrival);
}

void RelevantOnly::flush(std::vector<Observation>& kept) {
  for (ItemState& item : items_) {
    if (const Observation* last = passed_over_last(item)) {
      kept.push_back(*last);
      item.passed_over.pop_back();
    }
  }
}

template <class Archive>
void RelevantOnly::archive(Archive& archive) {
  const auto time = [](Archive& a, Instant& at) { a.time(at); };
  archive.flag(feed_is_known_);
  for (ItemState& item : items_) {
    if (item.rule == Rule::none) continue;
    archive_optional(archive, item.holds, [](Archive& a, double& value) { a.real(value); });
    archive_optional(archive, item.latest_at, time);
    archive_optional(archive, item.kept_at, time);
    archive_list(archive, item.passed_over, [](Archive& a, Observation& one) {
      a.time(one.at);
      a.number(one.item);
      a.real(one.value);
    });
  }
}

std::string RelevantOnly::save() const {
  RelevantOnly copy = *this;  // writing names the parts as reading does, by reference
  StateWriter writer;
  copy.archive(writer);
  return writer.bytes();
}

bool RelevantOnly::restore(std::string_view record) {
  StateReader reader(record);
  archive(reader);
  return reader.is_whole();
}

}  // namespace hw::counters
