#pragma once
// The kits of the agreed stops against what is there and on its way: which line is taken, reserved, coming or short.

#include <map>

#include "src/kits/reservations.h"
#include "src/service/kit_lines.h"
#include "src/service/stores_views.h"

namespace hw::service {

// One line of a stop's kit.
struct KitLineStanding {
  NeededLine line;
  double taken = 0;                             // for this stop, of the part or of substitutes ...
  std::map<std::string, double> taken_of = {};  // ... namely of these
  kits::LineStanding standing;
};

struct StopKit {
  const OpenMachine* machine = nullptr;
  const Stop* stop = nullptr;
  std::vector<KitLineStanding> lines;
};

struct StopKits {
  std::vector<StopKit> kits;  // of every agreed stop, by when they begin
  kits::StockByPart left;     // of the parts in them: what no stop needs
};

// The caller holds a lock, under which alone the pointers are good.
StopKits stop_kits(const OpenShop& shop, LocalDate today);
// Adds a part with its substitutes as it stands on the shelf, where `stock` does not have it.
void add_stock(kits::StockByPart& stock, const OpenShop& shop, const std::string& number, LocalDate today);

// A line that comes with this chance or more is coming, with less it is short; our own choice.
inline constexpr double coming_chance = 0.9;

// ready, coming, short, not known; an empty kit is ready.
std::string state_of(const StopKit& kit);
std::string state_of(const KitLineStanding& line);
StopReadinessView readiness_view(const OpenShop& shop, const StopKit& kit);

}  // namespace hw::service
