#pragma once
// The logbook as a table for spreadsheets and other programs.

#include <span>
#include <string>

#include "libs/values/zone.h"
#include "src/service/views.h"

namespace hw::sheets {

// CSV (RFC 4180, UTF-8) with one header line and one line for each entry, in the order given:
//
//   ordinal, happened_on (the plant's date), happened_at, heard_at (UTC), machine, kind, task, by, says, note, answers,
//   photos, finding, corrects, stray, undone, id
//
// Answers and photos stand in one cell with "; " between them. Texts that a spreadsheet would run as a formula are made
// harmless (formats::harmless_cell).
std::string print_logbook(std::span<const service::EntryView> entries, const Zone& zone);

}  // namespace hw::sheets
