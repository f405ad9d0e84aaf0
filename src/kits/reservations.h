#pragma once
// Which stop gets which parts: what is there, then what is on its way, goes to the stop that begins first. So where the
// stock cannot serve all stops, it is said which one goes without.
//
//   1. each line takes of its own part's stock, stops in order, what expires first first, nothing past its shelf life
//   2. lines that still lack something take of the stock of substitutes that nobody's own line needs
//   3. lines that still lack something are promised what open orders bring, the earliest first
//
// Amounts in the part's unit. Pure.

#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "src/kits/shelf.h"

namespace hw::kits {

// One line of a stop's kit.
struct StopLine {
  std::string part;
  double quantity = 0;  // that it lacks: what was taken already is left out
};

struct StopWant {
  LocalDate on;
  std::vector<StopLine> lines;
};

// What an open order still brings of a part.
struct Incoming {
  double quantity = 0;
  LocalDate expected_on;                            // with a chance of 90 %
  std::function<double(LocalDate)> chance_by = {};  // that it is there by the end of a day
};

struct PartStock {
  std::vector<Batch> batches;            // as in Shelf
  std::vector<Incoming> incoming;        // the earliest first
  std::vector<std::string> substitutes;  // in the order in which they are to be taken
};

struct LineStanding {
  double reserved = 0;                      // of its own part or of a substitute
  std::optional<std::string> substitute{};  // of which something is reserved ...
  double of_substitute = 0;                 // ... namely so much of `reserved`
  double promised = 0;                      // of open orders
  std::optional<LocalDate> expected_on{};   // when all of that is there, with 90 %
  double chance = 1;                        // that all of the line is there on the morning of the stop
  double lacking = 0;                       // neither there nor on order
};

using StockByPart = std::map<std::string, PartStock, std::less<>>;

// For each stop, for each of its lines; `stops` in the order in which they begin. Parts that are not in `stock` have
// none. What nobody needs is left in `stock`.
std::vector<std::vector<LineStanding>> reserve(std::span<const StopWant> stops, StockByPart& stock);

}  // namespace hw::kits
