#include "src/service/use_rates_of.h"

#include <array>
#include <span>

#include "src/service/reading_series.h"

namespace hw::service {
namespace {

using condition::Consumable;
using condition::RateTrend;

// The counters over which a consumable is used up, the one that fits best first: where a control does not tell when it
// cuts, the spindle's hours stand for it.
std::span<const std::string_view> counters_for(Consumable consumable) {
  static constexpr std::array<std::string_view, 3> of_axes{"axis", "operating", "powered"};
  static constexpr std::array<std::string_view, 4> of_cutting{"cutting", "spindle", "operating", "powered"};
  static constexpr std::array<std::string_view, 3> of_spindle{"spindle", "operating", "powered"};
  static constexpr std::array<std::string_view, 1> of_power{"powered"};
  static constexpr std::array<std::string_view, 2> of_work{"operating", "powered"};
  switch (consumable) {
    case Consumable::way_oil:
      return of_axes;
    case Consumable::coolant:
      return of_cutting;
    case Consumable::spindle_oil:
      return of_spindle;
    case Consumable::hydraulic_oil:
      return of_power;
    case Consumable::other:
      break;
  }
  return of_work;
}

std::string_view word_of(Consumable consumable) {
  constexpr std::array<std::string_view, 5> words{"way oil", "hydraulic oil", "coolant", "spindle oil", "other"};
  return words.at(static_cast<std::size_t>(consumable));
}

std::string_view word_of(RateTrend direction) {
  constexpr std::array<std::string_view, 3> words{"none seen", "less", "more"};
  return words.at(static_cast<std::size_t>(direction));
}

// What the counter showed then, in the terms of now.
double total_then(const OpenMachine& machine, const FillRecord& fill, const std::string& counter) {
  const auto there = fill.counters.find(counter);
  return (there == fill.counters.end() ? 0 : there->second) + start_moved_since(machine, counter, fill.at);
}

// The first that rose from the first fill to the last; where none did, the one that fits best.
std::string counter_for(const OpenMachine& machine, Consumable consumable, const std::vector<FillRecord>& fills) {
  const auto candidates = counters_for(consumable);
  for (const std::string_view one : candidates) {
    const std::string counter{one};
    const bool rose =
        !fills.empty() && total_then(machine, fills.back(), counter) > total_then(machine, fills.front(), counter);
    if (rose) return counter;
  }
  return std::string{candidates.front()};
}

// Fills between which the counter did not rise are one: the machine stood.
std::vector<FillView> fill_views(const OpenMachine& machine, const std::vector<FillRecord>& fills,
                                 const std::string& counter) {
  std::vector<FillView> views;
  for (const FillRecord& fill : fills) {
    const double total = total_then(machine, fill, counter);
    if (!views.empty() && total <= views.back().counter_total) {
      views.back().amount += fill.amount;
      continue;
    }
    views.push_back({fill.at, fill.by, fill.entry, fill.amount, total, {}});
  }
  return views;
}

void tell_rates(UseLineView& view, Consumable consumable) {
  if (view.fills.size() < 2) {
    view.refused = fmt::format("it was topped up {} times with a quantity; a rate needs 2", view.fills.size());
    view.refusal = Saying{"fills-few", {}, {{"count", static_cast<double>(view.fills.size())}}};
    return;
  }
  std::vector<condition::Fill> fills;
  for (const FillView& one : view.fills) fills.push_back({one.counter_total, one.amount});
  const auto rates = condition::use_rates(fills);
  if (!rates) {
    view.refused = rates.error().message;
    return;
  }
  for (std::size_t i = 0; i < rates->rates.size(); ++i) view.fills[i + 1].rate = rates->rates[i];
  view.over_all = rates->over_all;
  view.last_against_rest = rates->last_against_rest;
  view.p = rates->p_one_sided;
  view.direction = word_of(rates->direction);
  const std::string_view means = condition::meaning_of(consumable, rates->direction);
  if (!means.empty()) view.says = means;
}

}  // namespace

Consumable consumable_of(const catalogue::Task& task) {
  if (task.assembly == "coolant") return Consumable::coolant;
  if (task.assembly == "hydraulics") return Consumable::hydraulic_oil;
  if (task.assembly == "lubrication") return Consumable::way_oil;
  return task.assembly == "spindle" ? Consumable::spindle_oil : Consumable::other;
}

Result<std::vector<UseLineView>> use_lines(const OpenShop& shop, const OpenMachine& machine) {
  std::vector<UseLineView> lines;
  for (const TaskRecord& record : machine.record.tasks) {
    const auto unit = fill_unit(record.task);
    if (record.retired_at || !unit) continue;
    HW_TAKE(fills, read_fills(shop.store(), machine.record.machine.key, record.task));
    const Consumable consumable = consumable_of(record.task);
    UseLineView& view = lines.emplace_back();
    view.task = record.task.key;
    view.title = record.task.title;
    view.assembly = record.task.assembly;
    view.unit = *unit;
    view.consumable = word_of(consumable);
    view.counter = counter_for(machine, consumable, fills);
    view.fills = fill_views(machine, fills, view.counter);
    tell_rates(view, consumable);
  }
  return lines;
}

}  // namespace hw::service
