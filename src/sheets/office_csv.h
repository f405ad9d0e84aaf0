#pragma once
// CSV as spreadsheets of a country's offices open it without asking: UTF-8 with a mark; in German semicolons and
// decimal commas, in English commas and points.

#include <span>
#include <string>
#include <vector>

#include "src/sheets/job_card.h"

namespace hw::sheets {

// In digits that can be read in one way only: 1.234 is 1.2340.
std::string office_number(double number, CardLanguage language);

// Each row must be as long as the headings.
std::string print_office_csv(std::span<const std::string> headings, std::span<const std::vector<std::string>> rows,
                             CardLanguage language);

}  // namespace hw::sheets
