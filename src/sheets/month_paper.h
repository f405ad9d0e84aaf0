#pragma once
// A month's report as PDF: tables one below the other, as many pages as they need.

#include "src/sheets/month_report.h"

namespace hw::sheets {

// The same report gives the same bytes.
std::string print_month_paper(const MonthReport& report, CardPaper paper);

}  // namespace hw::sheets
