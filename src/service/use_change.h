#pragma once
// Announced changes of use: from a day on a machine, or every machine, is used more or less than its history says.
//
// The history is told in the terms of an ordinary day, each day divided by the factor that was announced for it (a day
// that was announced without use says nothing), and the days ahead are multiplied by theirs. Changes that hold on the
// same day multiply.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "libs/values/instant.h"
#include "libs/values/local_date.h"
#include "src/due/daily_use.h"
#include "src/due/future_days.h"
#include "src/service/records.h"

namespace hw::service {

// An entry's machine where it concerns every machine.
inline constexpr std::string_view whole_plant = "";
// The kinds of their entries.
inline constexpr std::string_view use_announced = "use announced";
inline constexpr std::string_view use_withdrawn = "use withdrawn";

struct UseChange {
  std::string id;                      // of the entry that announced it
  std::optional<std::string> machine;  // none: every machine
  LocalDate from;
  std::optional<LocalDate> until;  // the last day; none: for good
  double factor = 1;               // 0 to 10, of the use on an ordinary day
  std::string why;
  std::string by;
  Instant at;
  bool is_withdrawn = false;
};

// What an entry of the kind "use announced" says.
UseChange use_change_of(const Entry& entry);

// Those that concern a machine and were not withdrawn.
std::vector<UseChange> changes_for(std::span<const UseChange> all, std::string_view machine);

// The product of the factors that hold on that day.
double factor_on(std::span<const UseChange> changes, LocalDate day);

// The days in the terms of an ordinary day.
std::vector<due::UseDay> ordinary_use(std::span<const due::UseDay> days, std::span<const UseChange> changes);

}  // namespace hw::service
