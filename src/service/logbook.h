#pragma once
// What can be asked of the logbook.

#include <cstdint>
#include <optional>
#include <string>

#include "libs/values/instant.h"
#include "libs/values/local_date.h"

namespace hw::service {

// Which entries somebody wants to see. What is not said does not matter.
struct LogbookQuery {
  std::optional<std::string> machine = {};
  std::optional<std::string> kind = {};
  std::optional<std::string> by = {};
  std::optional<LocalDate> first = {};      // by the day on which it happened, in the plant's zone
  std::optional<LocalDate> last = {};       // included
  std::optional<std::string> text = {};     // stands in the sentence or the note, capitals or not
  bool only_strays = false;                 // only what waits for the lead
  std::optional<std::int64_t> before = {};  // only lower ordinals
  int count = 100;                          // 1 to 500
};

// The same as the store is asked.
struct EntryFilter {
  std::optional<std::string> machine = {};
  std::optional<std::string> kind = {};
  std::optional<std::string> by = {};
  std::optional<Instant> from = {};
  std::optional<Instant> until = {};     // excluded
  std::optional<std::string> text = {};  // in small letters
  bool only_strays = false;
  std::optional<std::int64_t> before = {};
};

}  // namespace hw::service
