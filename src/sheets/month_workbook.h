#pragma once
// A month's report as a workbook: a sheet for each table, numbers as numbers.

#include "src/sheets/month_report.h"

namespace hw::sheets {

// The same report gives the same bytes. Refuses what formats::print_workbook refuses.
Result<std::string> print_month_workbook(const MonthReport& report);

}  // namespace hw::sheets
