#include "src/catalogue/parts_sheet.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include <fmt/ranges.h>

#include "src/catalogue/sheet_fields.h"
#include "src/catalogue/sheet_headings.h"

namespace hw::catalogue {
namespace {

using formats::TableRow;

constexpr std::size_t mistakes_shown = 200, sample_shown = 5;
constexpr std::size_t rows_told = 10;   // in which one number stands
constexpr std::size_t rings_told = 20;  // at once; the others when these are mended
constexpr double on_hand_max = 1e7;

// A row on its way to a part.
struct Draft {
  SheetRow row;
  StoredPart part;
  bool is_new = false;
  bool is_changed = false;
  std::optional<double> found = {};  // on the shelf
};

// A table whose columns are known, and how numbers are written in each.
class Reading {
 public:
  Reading(const formats::SheetTable& table, FoundHeadings headings, const PresentStores& present)
      : table_(table), headings_(std::move(headings)), present_(present) {
    for (const StoredPart& part : present.parts) by_number_.emplace(plain_text(part.number), &part);
    for (std::size_t i = 0; i < headings_.columns.size(); ++i) signs_.push_back(sign_of(i));
  }

  std::vector<Draft> drafts() const {
    std::vector<Draft> drafts;
    for (std::size_t i = headings_.first_row; i < table_.rows.size(); ++i) {
      if (has_something(table_.rows[i])) drafts.push_back(draft_of(table_.rows[i]));
    }
    return drafts;
  }

  bool is_present(const std::string& number) const { return by_number_.contains(number); }

  // What the column of the field is called in the sheet, or by us.
  std::string heading(SheetField field) const {
    const auto column = headings_.column(field);
    if (!column) return "";
    const std::string text = plain_text(headings_.columns[*column].heading);
    return text.empty() ? std::string(heading_of(field, SheetLanguage::english)) : text;
  }

  void mistake(Draft& draft, SheetField field, const Error& error) const {
    draft.row.mistakes.push_back({heading(field), error.message, error.saying});
  }

  double book(const std::string& number) const {
    const auto found = present_.on_hand.find(number);
    return found == present_.on_hand.end() ? 0 : found->second;
  }

  // "decimal comma" where all columns that tell it tell it so.
  std::string decimal_signs() const {
    const bool has_comma = std::find(signs_.begin(), signs_.end(), DecimalSign::comma) != signs_.end();
    const bool has_point = std::find(signs_.begin(), signs_.end(), DecimalSign::point) != signs_.end();
    if (has_comma && has_point) return ", decimal comma and point";
    if (has_comma) return ", decimal comma";
    return has_point ? ", decimal point" : "";
  }

 private:
  DecimalSign sign_of(std::size_t column) const {
    const auto field = headings_.columns[column].field;
    if (!field || !holds_number(*field)) return DecimalSign::untold;
    std::vector<std::string> numbers;
    for (std::size_t i = headings_.first_row; i < table_.rows.size(); ++i) {
      const auto& cell = table_.rows[i].cells[column];
      const auto split = cell.number ? std::nullopt : split_number(plain_text(cell.text));
      if (split) numbers.push_back(split->digits);
    }
    return sign_told_by(numbers);
  }

  // In a column that was taken for something.
  bool has_something(const TableRow& row) const {
    const bool nothing_known = !headings_.column(SheetField::number);
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      if ((nothing_known || headings_.columns[i].field) && !plain_text(row.cells[i].text).empty()) return true;
    }
    return false;
  }

  Draft draft_of(const TableRow& row) const {
    Draft draft;
    draft.row.row = static_cast<std::int64_t>(row.row);
    for (const auto& cell : row.cells) draft.row.cells.push_back(cell.text);
    const auto column = headings_.column(SheetField::number);
    if (!column) {
      draft.row.mistakes.push_back(
          {"", "no column was found that holds the numbers of the parts; say which it is", Saying{"sheet-no-key"}});
      return draft;
    }
    const std::string number = plain_text(row.cells[*column].text);
    if (number.empty()) {
      mistake(draft, SheetField::number,
              {ErrorCode::bad_input, "the part's number is missing", Saying{"sheet-number-missing"}});
      return draft;
    }
    begin_part(draft, number);
    read_cells(draft, row);
    read_stock(draft, row);
    if (draft.row.mistakes.empty() && draft.is_changed) check_part(draft);
    return draft;
  }

  void begin_part(Draft& draft, const std::string& number) const {
    const auto present = by_number_.find(number);
    draft.is_new = present == by_number_.end();
    if (!draft.is_new) {
      draft.part = *present->second;
      return;
    }
    draft.part.number = number;
    draft.part.unit = "piece";
  }

  // Unit and supplier first: amounts and the supplier's number are read by them.
  void read_cells(Draft& draft, const TableRow& row) const {
    const StoredPart before = draft.part;
    for (const SheetField first : {SheetField::unit, SheetField::supplier}) read_cell(draft, row, first);
    if (draft.part.unit != before.unit && present_.moved.contains(before.number)) {
      mistake(draft, SheetField::unit,
              {ErrorCode::bad_input,
               fmt::format("it is counted in {} and was moved already; keep its unit, or make another part of it",
                           before.unit)});
    }
    for (std::size_t i = 0; i < sheet_field_count; ++i) {
      const SheetField field = sheet_field_at(i);
      const bool is_elsewhere = field == SheetField::number || field == SheetField::on_hand ||
                                field == SheetField::unit || field == SheetField::supplier;
      if (!is_elsewhere) read_cell(draft, row, field);
    }
    draft.is_changed = draft.is_new || !(draft.part == before);
  }

  void read_cell(Draft& draft, const TableRow& row, SheetField field) const {
    const auto column = headings_.column(field);
    if (!column) return;
    const auto put = put_cell(draft.part, field, row.cells[*column], signs_[*column]);
    if (!put) mistake(draft, field, put.error());
  }

  void read_stock(Draft& draft, const TableRow& row) const {
    const auto column = headings_.column(SheetField::on_hand);
    if (!column) return;
    const auto found = read_number_cell(row.cells[*column], SheetField::on_hand, signs_[*column], draft.part.unit);
    if (!found) return mistake(draft, SheetField::on_hand, found.error());
    if (!*found) return;
    if (const auto checked = check_stock(**found, draft.part); !checked) {
      return mistake(draft, SheetField::on_hand, checked.error());
    }
    if (!is_same_number(**found, book(draft.part.number))) draft.found = **found;
  }

  static Result<void> check_stock(double found, const StoredPart& part) {
    if (found < 0) {
      return refuse(ErrorCode::bad_input, Saying{"sheet-negative", {}, {{"value", found}}},
                    "{} cannot lie on a shelf; right is 0 or more", found);
    }
    if (found > on_hand_max) {
      return refuse(ErrorCode::bad_input, "{} is more than any shelf holds; right is at most {}", found, on_hand_max);
    }
    if (!is_counted(part.unit) || found == std::floor(found)) return {};
    return refuse(ErrorCode::bad_input, Saying{"sheet-not-whole", {{"unit", part.unit}}, {{"value", found}}},
                  "{} is no whole number of {}", found, part.unit);
  }

  void check_part(Draft& draft) const {
    if (draft.part.title.empty()) {
      return mistake(draft, SheetField::title,
                     {ErrorCode::bad_input, "the part is new and has no title", Saying{"sheet-title-missing"}});
    }
    const auto checked = check(draft.part);
    if (checked) return;
    // "price: -1 must be 0 to 10000000"; of references the column is that of the supplier's number.
    const std::string& says = checked.error().message;
    const std::string word = says.substr(0, says.find_first_of(":,"));
    const auto field = word == "references" ? SheetField::reference : sheet_field_of(word);
    draft.row.mistakes.push_back({field ? heading(*field) : "", says, checked.error().saying});
  }

  const formats::SheetTable& table_;
  FoundHeadings headings_;
  const PresentStores& present_;
  std::map<std::string, const StoredPart*, std::less<>> by_number_;  // as a sheet has it
  std::vector<DecimalSign> signs_;                                   // of each column
};

void find_doubles(std::vector<Draft>& drafts, const Reading& reading) {
  std::map<std::string, std::vector<std::int64_t>, std::less<>> rows;
  for (const Draft& draft : drafts) {
    if (!draft.part.number.empty()) rows[draft.part.number].push_back(draft.row.row);
  }
  for (Draft& draft : drafts) {
    const auto found = rows.find(draft.part.number);
    if (found == rows.end() || found->second.size() < 2) continue;
    const bool is_many = found->second.size() > rows_told;
    const auto told = std::span(found->second).first(std::min(found->second.size(), rows_told));
    const std::string named = fmt::format("{}{}", fmt::join(told, ", "), is_many ? ", ..." : "");
    reading.mistake(draft, SheetField::number,
                    {ErrorCode::bad_input,
                     fmt::format("{} stands in the rows {}; right is one row a part", draft.part.number, named),
                     Saying{"sheet-twice", {{"part", draft.part.number}, {"rows", named}}}});
  }
}

std::vector<std::string> substitutes_of(const StoredPart& part) {
  return part.substitutes.value_or(std::vector<std::string>{});
}

// Neither in the sheet nor in the stores.
void find_unknown_substitutes(std::vector<Draft>& drafts, const Reading& reading) {
  std::set<std::string, std::less<>> in_sheet;
  for (const Draft& draft : drafts) in_sheet.insert(draft.part.number);
  for (Draft& draft : drafts) {
    if (!draft.is_changed) continue;
    for (const std::string& number : substitutes_of(draft.part)) {
      if (in_sheet.contains(number) || reading.is_present(plain_text(number))) continue;
      reading.mistake(draft, SheetField::substitutes,
                      {ErrorCode::bad_input, fmt::format("neither the sheet nor the stores have a part \"{}\"", number),
                       Saying{"no-stored-part", {{"part", number}}}});
    }
  }
}

// Everything as it would be.
std::vector<StoredPart> all_parts(const std::vector<Draft>& drafts, const PresentStores& present) {
  std::map<std::string_view, const StoredPart*> all;
  for (const StoredPart& part : present.parts) all[part.number] = &part;
  for (const Draft& draft : drafts) {
    if (!draft.part.number.empty()) all[draft.part.number] = &draft.part;
  }
  std::vector<StoredPart> parts;
  for (const auto& [number, part] : all) parts.push_back(*part);
  return parts;
}

// Each ring is the mistake of the rows in it; then its parts are looked at without substitutes for the next one.
void find_rings(std::vector<Draft>& drafts, const PresentStores& present, const Reading& reading) {
  std::vector<StoredPart> parts = all_parts(drafts, present);
  for (std::size_t found = 0; found < rings_told; ++found) {
    const auto ring = ring_of_substitutes(parts);
    if (ring.empty()) return;
    const std::set<std::string_view> in_ring(ring.begin(), ring.end());
    for (Draft& draft : drafts) {
      if (in_ring.contains(draft.part.number)) reading.mistake(draft, SheetField::substitutes, ring_mistake(ring));
    }
    for (StoredPart& part : parts) {
      if (in_ring.contains(part.number)) part.substitutes.reset();
    }
  }
}

void tally(PartsSheet& sheet, Draft draft) {
  SheetLook& look = sheet.look;
  ++look.rows;
  if (look.sample.size() < sample_shown) look.sample.push_back(draft.row);
  if (!draft.row.mistakes.empty()) {
    ++look.mistaken;
    if (look.mistakes.size() < mistakes_shown) look.mistakes.push_back(draft.row);
    sheet.mistaken.push_back(std::move(draft.row));
    return;
  }
  ++(draft.is_new ? look.added : draft.is_changed ? look.changed : look.alike);
  if (draft.found) {
    ++look.counted;
    sheet.counts.emplace(draft.part.number, *draft.found);
  }
  if (draft.is_changed) sheet.parts.push_back(std::move(draft.part));
}

}  // namespace

Result<PartsSheet> read_parts_sheet(const formats::SheetTable& table, const std::optional<std::string>& columns,
                                    const PresentStores& present) {
  HW_TAKE(headings, find_headings(table, columns));
  PartsSheet sheet;
  for (const FoundColumn& column : headings.columns) {
    sheet.look.columns.push_back(
        {column.heading, column.field ? std::optional{std::string(word_of(*column.field))} : std::nullopt});
  }
  const Reading reading(table, headings, present);
  std::vector<Draft> drafts = reading.drafts();
  if (drafts.empty()) return refuse(ErrorCode::bad_input, "below its headings the sheet has no row");
  find_doubles(drafts, reading);
  find_unknown_substitutes(drafts, reading);
  find_rings(drafts, present, reading);
  sheet.look.form = print(table.form) + reading.decimal_signs();
  for (Draft& draft : drafts) tally(sheet, std::move(draft));
  return sheet;
}

}  // namespace hw::catalogue
