#pragma once
// A report as PDF: tables one below the other, as many pages as they need.

#include "src/sheets/job_card.h"
#include "src/sheets/report.h"

namespace hw::sheets {

// The same report gives the same bytes.
std::string print_report_paper(const Report& report, CardPaper paper);

}  // namespace hw::sheets
