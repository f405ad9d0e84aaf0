#pragma once
// The cells of a workbook (ISO/IEC 29500-1, parts of ISO/IEC 29500-2). Used by sheet.h.

#include "libs/formats/sheet.h"
#include "libs/formats/zip_archive.h"

namespace hw::formats {

// The parts of a workbook that are read, by their names in the archive.
struct SheetPart {
  std::string title;  // as its tab says
  std::string part;
  bool operator==(const SheetPart&) const = default;
};
struct WorkbookParts {
  std::vector<SheetPart> sheets;  // not hidden, in the workbook's order
  std::string shared_texts;       // empty where there are none
};

// Follows the archive's relationships from its root. Errors: bad_input for an archive that is no XLSX workbook.
Result<WorkbookParts> find_workbook_parts(const ZipArchive& archive);

// The first sheet with something in it; no rows where there is none. Rows may have cells of blanks and different
// lengths. Errors: as those of read_sheet.
Result<SheetTable> read_xlsx(std::string_view bytes, const SheetLimits& limits);
// All sheets with something in them.
Result<std::vector<TitledSheet>> read_xlsx_sheets(std::string_view bytes, const SheetLimits& limits);

}  // namespace hw::formats
