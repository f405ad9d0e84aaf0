#include "src/kits/reservations.h"

#include <algorithm>

namespace hw::kits {
namespace {

constexpr double nothing = 1e-9;

// Takes up to `wanted` of what is good on that day; gives what it got.
double take_good(std::vector<Batch>& batches, double wanted, LocalDate on) {
  double got = 0;
  for (Batch& batch : batches) {
    if (batch.best_before && *batch.best_before < on) continue;
    const double part = std::min(wanted - got, batch.quantity);
    batch.quantity -= part;
    got += part;
  }
  return got;
}

// One line while stock is given out.
struct Asking {
  const StopWant& stop;
  const StopLine& line;
  LineStanding& standing;
  double lacks() const { return line.quantity - standing.reserved - standing.promised; }
};

void reserve_own(const Asking& asking, StockByPart& stock) {
  const auto there = stock.find(asking.line.part);
  if (there == stock.end()) return;
  asking.standing.reserved += take_good(there->second.batches, asking.lacks(), asking.stop.on);
}

void reserve_substitute(const Asking& asking, StockByPart& stock) {
  const auto own = stock.find(asking.line.part);
  if (own == stock.end()) return;
  for (const std::string& number : own->second.substitutes) {
    const auto there = stock.find(number);
    if (asking.lacks() <= nothing) return;
    if (there == stock.end()) continue;
    const double got = take_good(there->second.batches, asking.lacks(), asking.stop.on);
    if (got <= nothing) continue;
    asking.standing.reserved += got;
    asking.standing.of_substitute += got;
    asking.standing.substitute = number;
    return;  // a line mixes its own part with one substitute, not with several
  }
}

void promise(const Asking& asking, StockByPart& stock) {
  const auto own = stock.find(asking.line.part);
  if (own == stock.end()) return;
  for (Incoming& one : own->second.incoming) {
    const double got = std::min(asking.lacks(), one.quantity);
    if (got <= nothing) continue;
    one.quantity -= got;
    asking.standing.promised += got;
    asking.standing.expected_on = std::max(asking.standing.expected_on.value_or(one.expected_on), one.expected_on);
    // On the evening before the stop; orders come independently of each other.
    if (one.chance_by) asking.standing.chance *= one.chance_by(asking.stop.on - 1);
  }
}

void end_line(const Asking& asking) {
  asking.standing.lacking = asking.lacks() > nothing ? asking.lacks() : 0;
  if (asking.standing.lacking > 0) asking.standing.chance = 0;
}

}  // namespace

std::vector<std::vector<LineStanding>> reserve(std::span<const StopWant> stops, StockByPart& stock) {
  std::vector<std::vector<LineStanding>> all;
  for (const StopWant& stop : stops) all.emplace_back(stop.lines.size());
  const auto each = [&](const auto& step) {
    for (std::size_t i = 0; i < stops.size(); ++i) {
      for (std::size_t j = 0; j < stops[i].lines.size(); ++j) step(Asking{stops[i], stops[i].lines[j], all[i][j]});
    }
  };
  each([&](const Asking& asking) { reserve_own(asking, stock); });
  each([&](const Asking& asking) { reserve_substitute(asking, stock); });
  each([&](const Asking& asking) { promise(asking, stock); });
  each(end_line);
  return all;
}

}  // namespace hw::kits
