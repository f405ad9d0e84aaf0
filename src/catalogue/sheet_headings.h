#pragma once
// Which column of a sheet of parts holds what: by its heading, in English or German, in the words of many shops; or as
// a person says it.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "libs/formats/sheet.h"

namespace hw::catalogue {

// What a column can hold, in the order in which sheets are written.
enum class SheetField {
  number,
  title,
  unit,
  place,
  on_hand,
  supplier,
  reference,  // what the supplier calls it
  price,
  pack,
  minimum,
  lead_days,
  shelf_life_days,
  substitutes,
  names,
  wanted,
  failures_per_year,
  serial,
  note
};
inline constexpr std::size_t sheet_field_count = 18;

enum class SheetLanguage { english, german };

SheetField sheet_field_at(std::size_t index);
// As the contract has it: "lead_days".
std::string_view word_of(SheetField field);
std::optional<SheetField> sheet_field_of(std::string_view word);
// As we write it above a column: "Lead time (days)", "Lieferzeit (Tage)". Each is understood again.
std::string_view heading_of(SheetField field, SheetLanguage language);

struct FoundColumn {
  std::string heading;  // empty where no row has headings
  std::optional<SheetField> field;
};

struct FoundHeadings {
  std::vector<FoundColumn> columns;
  std::size_t first_row = 0;  // of the parts, within the table's rows

  std::optional<std::size_t> column(SheetField field) const;
};

// The headings stand in the row among the first 20 in which the most are known, at least two; where there is none, in
// the first row with two filled cells. `said` names fields in the order of the columns ("number,title,,on_hand") and
// then alone counts; and a row in which no heading is known, but a number where numbers are said to be, is one of
// parts: then there are no headings. Where two columns have headings for the same field, the clearer one is taken, or
// the first. Errors: bad_input for a word that is no field, the same one twice, more words than columns.
Result<FoundHeadings> find_headings(const formats::SheetTable& table, const std::optional<std::string>& said);

}  // namespace hw::catalogue
