#pragma once
// A month as a report.

#include <map>
#include <string>

#include "libs/values/zone.h"
#include "src/service/month_views.h"
#include "src/sheets/job_card.h"
#include "src/sheets/report.h"

namespace hw::sheets {

// What a report says beside the month itself.
struct ReportNames {
  std::string plant;
  Zone zone = Zone::utc();
  std::map<std::string, std::string> machines;  // by key
};

Report month_report(const service::MonthView& month, const ReportNames& names, CardLanguage language);

}  // namespace hw::sheets
