#include "src/service/use_change.h"

namespace hw::service {

UseChange use_change_of(const Entry& entry) {
  const UseChangeText text = entry.body.use.value_or(UseChangeText{});
  return {.id = entry.id,
          .machine = entry.machine == whole_plant ? std::nullopt : std::optional{entry.machine},
          .from = text.from,
          .until = text.until,
          .factor = text.factor,
          .why = entry.body.why.value_or(""),
          .by = entry.by,
          .at = entry.happened_at,
          .is_withdrawn = entry.is_undone};
}

std::vector<UseChange> changes_for(std::span<const UseChange> all, std::string_view machine) {
  std::vector<UseChange> its;
  for (const UseChange& change : all) {
    if (!change.is_withdrawn && change.machine.value_or(std::string{machine}) == machine) its.push_back(change);
  }
  return its;
}

double factor_on(std::span<const UseChange> changes, LocalDate day) {
  double factor = 1;
  for (const UseChange& change : changes) {
    if (change.from <= day && day <= change.until.value_or(day)) factor *= change.factor;
  }
  return factor;
}

std::vector<due::UseDay> ordinary_use(std::span<const due::UseDay> days, std::span<const UseChange> changes) {
  std::vector<due::UseDay> ordinary;
  for (const due::UseDay& day : days) {
    const double factor = factor_on(changes, day.on);
    if (factor > 0) ordinary.push_back({day.on, day.used / factor});
  }
  return ordinary;
}

}  // namespace hw::service
