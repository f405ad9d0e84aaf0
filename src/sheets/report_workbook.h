#pragma once
// A report as a workbook: a sheet for each table, numbers as numbers.

#include "libs/values/result.h"
#include "src/sheets/report.h"

namespace hw::sheets {

// The same report gives the same bytes. Refuses what formats::print_workbook refuses.
Result<std::string> print_report_workbook(const Report& report);

}  // namespace hw::sheets
