#pragma once
// The hours of one run of recordings, ready to be printed: as JSON (docs/api/hours.md) or as tables.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "src/counters/count_run.h"
#include "src/feeds/file_run.h"

namespace hw::terminal {

struct MachineHours {
  const counters::MachineModel* model = nullptr;
  counters::Report report;
  const feeds::MachineRun* run = nullptr;
};

struct HoursReport {
  std::vector<MachineHours> machines;
  std::vector<feeds::Note> notes;
  std::uint64_t observations = 0;
  std::uint64_t bad_lines = 0;
  bool by_day = false;
  std::optional<double> load_above_percent;
};

std::string print_hours_json(const HoursReport& report);
std::string print_hours_tables(const HoursReport& report);

}  // namespace hw::terminal
