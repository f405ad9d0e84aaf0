#include "src/proposal/cost_growth.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace hw::proposal {
namespace {

using catalogue::WorkType;

constexpr std::string_view guarding_assembly = "guards";
constexpr std::array<std::string_view, 6> guarding_words{"brake", "accumulator", "interlock", "guard", "door", "stop-"};

}  // namespace

CostGrowth growth_of(WorkType work) {
  switch (work) {
    case WorkType::inspect:
    case WorkType::measure:
      return {1.5, 0.1};
    case WorkType::clean:
    case WorkType::adjust:
      return {2, 0.2};
    case WorkType::lubricate:
    case WorkType::top_up:
      return {2, 0.4};
    case WorkType::replace:
    case WorkType::overhaul:
      return {3, 0.3};
  }
  return {};
}

CostGrowth growth_of(const catalogue::Task& task) {
  constexpr double wear_min = 1.1, wear_max = 6;
  CostGrowth growth = growth_of(task.work);
  if (task.costs && task.costs->wear) growth.wear = std::clamp(*task.costs->wear, wear_min, wear_max);
  return growth;
}

bool guards_people(const catalogue::Task& task) {
  if (task.demanded_by == catalogue::Demand::safety || task.assembly == guarding_assembly) return true;
  return std::any_of(guarding_words.begin(), guarding_words.end(),
                     [&](std::string_view word) { return task.key.find(word) != std::string::npos; });
}

}  // namespace hw::proposal
