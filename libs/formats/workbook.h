#pragma once
// A workbook as spreadsheets open it (Office Open XML, ISO/IEC 29500), with sheets of texts and numbers. A text is
// always a text: one that begins with = is never run as a formula. The same sheets give the same bytes: nothing in the
// file tells when or where it was made.

#include <string>
#include <variant>
#include <vector>

#include "libs/values/result.h"

namespace hw::formats {

// How a number is shown: 131.5, 2, 81.9 %, with the digits that it has.
enum class NumberLook { tenths, whole, percent, plain };

struct SheetNumber {
  double value = 0;  // finite
  NumberLook look = NumberLook::tenths;
};

using SheetCell = std::variant<std::string, SheetNumber>;
using SheetLine = std::vector<SheetCell>;

struct WorkSheet {
  std::string name;            // at most 31 characters, none of [ ] : * ? / \, and no other sheet's
  std::vector<double> widths;  // of the columns, in characters
  SheetLine heading;           // bold, and stays in sight
  std::vector<SheetLine> lines;
};

// Refuses (bad_input) a text of more than 32,767 characters; (disk_full) where the library cannot write the file that
// it needs in the folder for temporary files.
Result<std::string> print_workbook(const std::string& title, const std::vector<WorkSheet>& sheets);

}  // namespace hw::formats
