#pragma once
// One cell of a sheet to one field of a part, and back.

#include "libs/formats/sheet.h"
#include "src/catalogue/sheet_headings.h"
#include "src/catalogue/sheet_numbers.h"
#include "src/catalogue/stored_part.h"

namespace hw::catalogue {

// The text without blanks around it, and without the apostrophe that formats::harmless_cell puts before what a
// spreadsheet would run.
std::string plain_text(std::string_view cell);

// A unit as we write it: "piece" for Stk, pcs, each; "l" for Liter; every other word as it stands.
std::string plain_unit(std::string_view unit);

// The number of a cell of a column in which the decimal sign is `sign`; nothing for an empty cell. `unit` is the
// part's, which may stand behind amounts. Days may be said in weeks (7 days), months (30) and years (365); a percentage
// is its hundredth. Errors: bad_input for what is no number, or can be read in two ways.
Result<std::optional<double>> read_number_cell(const formats::TableCell& cell, SheetField field, DecimalSign sign,
                                               std::string_view unit);

// Puts what the cell says into the part, any field but number and on_hand. An empty cell takes what can be missing
// out, and leaves title and unit as they are. A cell that says what `cell_of` writes of the part changes nothing, not
// even blanks. The supplier's number is that of the part's supplier, so supplier and unit come first. Errors:
// bad_input, for people, for what cannot be read.
Result<void> put_cell(StoredPart& part, SheetField field, const formats::TableCell& cell, DecimalSign sign);

// What a sheet has of the part in that field, any but on_hand; numbers as numbers, a text as it stands, not made
// harmless.
formats::TableCell cell_of(const StoredPart& part, SheetField field, SheetLanguage language);

}  // namespace hw::catalogue
