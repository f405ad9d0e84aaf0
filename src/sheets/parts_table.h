#pragma once
// Parts and stock as a sheet that can be read in again (catalogue/parts_sheet.h), and then changes nothing.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "src/catalogue/parts_sheet.h"
#include "src/sheets/job_card.h"

namespace hw::sheets {

struct PartOnHand {
  catalogue::StoredPart part;
  std::optional<double> on_hand;  // as the book has it; nothing where it has to be counted first
};

// UTF-8 with a mark; English with commas and decimal points, German with semicolons and decimal commas. Texts that a
// spreadsheet would run as a formula are made harmless (formats::harmless_cell).
std::string print_parts_csv(std::span<const PartOnHand> parts, CardLanguage language);

// XLSX, numbers as numbers. Refuses what formats::print_workbook refuses.
Result<std::string> print_parts_workbook(std::span<const PartOnHand> parts, CardLanguage language);

// The rows with a mistake as they stood, in such CSV, and in a column of its own what is wrong with each: mended, they
// can be read in as they are.
std::string print_mistakes(const catalogue::PartsSheet& sheet, CardLanguage language);

}  // namespace hw::sheets
