#pragma once
// A month as a report: tables of texts and numbers, from which paper (month_paper.h) and workbooks (month_workbook.h)
// are made alike.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "libs/values/zone.h"
#include "src/service/month_views.h"
#include "src/sheets/job_card.h"

namespace hw::sheets {

enum class ReportUnit { whole, hours, share, minutes };

// A text, or a number with how it is read; a range is a text.
struct ReportCell {
  std::string text;  // as it is printed
  std::optional<double> number = {};
  ReportUnit unit = ReportUnit::whole;
};

struct ReportColumn {
  std::string title;
  double share = 1;  // of the width, beside the others' shares
  bool is_number = false;
};

struct ReportTable {
  std::string title;
  std::vector<ReportColumn> columns;
  std::vector<std::vector<ReportCell>> rows;
  std::string none;  // said where there is no row
};

struct MonthReport {
  std::string title;      // "Month: November 2026"
  std::string subtitle;   // whose, and until when
  std::string page;       // {} of {}
  std::string continued;  // {}: the table that goes on
  std::vector<ReportTable> tables;
};

// What a report says beside the month itself.
struct ReportNames {
  std::string plant;
  Zone zone = Zone::utc();
  std::map<std::string, std::string> machines;  // by key
};

MonthReport month_report(const service::MonthView& month, const ReportNames& names, CardLanguage language);

}  // namespace hw::sheets
