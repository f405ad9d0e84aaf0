#pragma once
// A report: tables of texts and numbers, from which paper (report_paper.h) and workbooks (report_workbook.h) are made
// alike.

#include <optional>
#include <string>
#include <vector>

namespace hw::sheets {

enum class ReportUnit { whole, hours, share, minutes, amount };

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
  std::string none;       // said where there is no row
  std::string note = {};  // said below the rows
};

struct Report {
  std::string title;      // "Month: November 2026"
  std::string subtitle;   // whose, and until when
  std::string page;       // {} of {}
  std::string continued;  // {}: the table that goes on
  std::vector<ReportTable> tables;
};

}  // namespace hw::sheets
