#include "src/catalogue/sheet_headings.h"

#include <algorithm>
#include <limits>
#include <set>

#include "libs/values/small_letters.h"
#include "src/catalogue/sheet_numbers.h"
#include "src/catalogue/sheet_words.h"

namespace hw::catalogue {
namespace {

using formats::TableRow;

constexpr std::size_t rows_looked_at = 20;
constexpr std::size_t known_min = 2;  // fewer are a title
constexpr std::size_t unknown = std::numeric_limits<std::size_t>::max();

// "price" of "Price (EUR)", "stueckpreis" of "Stück-Preis €": small letters and digits alone, before any bracket,
// German letters as typewriters had them.
std::string without_marks(std::string_view heading) {
  std::string text = in_small_letters(heading.substr(0, heading.find_first_of("([")));
  for (const auto& [letter, plain] :
       {std::pair{"ä", "ae"}, std::pair{"ö", "oe"}, std::pair{"ü", "ue"}, std::pair{"ß", "ss"}}) {
    for (auto at = text.find(letter); at != std::string::npos; at = text.find(letter)) text.replace(at, 2, plain);
  }
  std::erase_if(text, [](char c) { return !((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')); });
  for (const std::string_view currency : {"eur", "euro", "chf", "usd", "gbp"}) {
    if (text.size() <= currency.size() || !text.ends_with(currency)) continue;
    text.resize(text.size() - currency.size());
    if (text.ends_with("in")) text.resize(text.size() - 2);
  }
  return text;
}

// How clearly it says the field, 0 the clearest.
std::size_t rank_in(std::string_view understood, std::string_view heading) {
  for (std::size_t rank = 0; !understood.empty(); ++rank) {
    const auto blank = std::min(understood.find(' '), understood.size());
    if (understood.substr(0, blank) == heading) return rank;
    understood.remove_prefix(std::min(blank + 1, understood.size()));
  }
  return unknown;
}

struct Meaning {
  std::optional<SheetField> field;
  std::size_t rank = unknown;
};

Meaning meaning_of(std::string_view heading) {
  const std::string plain = without_marks(heading);
  if (plain.empty()) return {};
  for (const FieldWords& words : field_words) {
    const std::size_t rank = rank_in(words.understood, plain);
    if (rank != unknown) return {words.field, rank};
  }
  return {};
}

// What each cell of the row would mean as a heading; of several for one field the clearest.
std::vector<std::optional<SheetField>> meanings_of(const TableRow& row) {
  std::vector<Meaning> meanings;
  for (const auto& cell : row.cells) meanings.push_back(cell.number ? Meaning{} : meaning_of(cell.text));
  std::vector<std::optional<SheetField>> fields;
  for (std::size_t i = 0; i < meanings.size(); ++i) {
    const Meaning& own = meanings[i];
    bool is_clearest = own.field.has_value();
    for (std::size_t k = 0; k < meanings.size(); ++k) {
      if (meanings[k].field != own.field) continue;
      is_clearest = is_clearest && (own.rank < meanings[k].rank || (own.rank == meanings[k].rank && i <= k));
    }
    fields.push_back(is_clearest ? own.field : std::nullopt);
  }
  return fields;
}

std::size_t known_in(const TableRow& row) {
  const auto fields = meanings_of(row);
  return static_cast<std::size_t>(
      std::count_if(fields.begin(), fields.end(), [](const auto& field) { return field.has_value(); }));
}

// The row with the most known headings.
std::optional<std::size_t> known_headings(const formats::SheetTable& table) {
  std::optional<std::size_t> best;
  std::size_t best_known = known_min - 1;
  for (std::size_t i = 0; i < std::min(table.rows.size(), rows_looked_at); ++i) {
    const std::size_t known = known_in(table.rows[i]);
    if (known <= best_known) continue;
    best_known = known;
    best = i;
  }
  return best;
}

using Fields = std::vector<std::optional<SheetField>>;

Result<Fields> parse_said(std::string_view said, std::size_t columns) {
  Fields fields;
  std::set<SheetField> seen;
  for (std::string_view rest = said;;) {
    const auto comma = std::min(rest.find(','), rest.size());
    const std::string_view word = rest.substr(0, comma);
    const auto field = sheet_field_of(word);
    if (!word.empty() && !field) {
      std::vector<std::string_view> right;
      for (const FieldWords& words : field_words) right.push_back(words.word);
      return refuse(ErrorCode::bad_input, "columns: \"{}\" is none; right are {}", word.substr(0, 60),
                    fmt::join(right, ", "));
    }
    if (field && !seen.insert(*field).second) {
      return refuse(ErrorCode::bad_input, "columns: {} is there twice; right is once", word);
    }
    fields.push_back(field);
    if (comma == rest.size()) break;
    rest.remove_prefix(comma + 1);
  }
  if (fields.size() > columns) {
    return refuse(ErrorCode::bad_input, "columns: {} are named, and the sheet has {}", fields.size(), columns);
  }
  fields.resize(columns);
  return fields;
}

// Whether a cell below which numbers are said to be is a number itself: then the row is one of parts.
bool has_number(const TableRow& row, const Fields& fields) {
  for (std::size_t i = 0; i < fields.size(); ++i) {
    if (fields[i] && holds_number(*fields[i]) && (row.cells[i].number || split_number(row.cells[i].text))) return true;
  }
  return false;
}

std::optional<std::size_t> unknown_headings(const formats::SheetTable& table, const Fields& fields) {
  for (std::size_t i = 0; i < std::min(table.rows.size(), rows_looked_at); ++i) {
    const auto& cells = table.rows[i].cells;
    const auto filled = std::count_if(cells.begin(), cells.end(), [](const auto& cell) { return !cell.text.empty(); });
    if (filled < std::min<std::ptrdiff_t>(2, static_cast<std::ptrdiff_t>(cells.size()))) continue;
    return has_number(table.rows[i], fields) ? std::nullopt : std::optional{i};
  }
  return std::nullopt;
}

}  // namespace

SheetField sheet_field_at(std::size_t index) { return field_words.at(index).field; }

std::string_view word_of(SheetField field) { return field_words.at(static_cast<std::size_t>(field)).word; }

std::optional<SheetField> sheet_field_of(std::string_view word) {
  for (const FieldWords& words : field_words) {
    if (words.word == word) return words.field;
  }
  return std::nullopt;
}

std::string_view heading_of(SheetField field, SheetLanguage language) {
  const FieldWords& words = field_words.at(static_cast<std::size_t>(field));
  return language == SheetLanguage::german ? words.german : words.english;
}

std::optional<std::size_t> FoundHeadings::column(SheetField field) const {
  for (std::size_t i = 0; i < columns.size(); ++i) {
    if (columns[i].field == field) return i;
  }
  return std::nullopt;
}

Result<FoundHeadings> find_headings(const formats::SheetTable& table, const std::optional<std::string>& said) {
  const std::size_t width = table.rows.empty() ? 0 : table.rows.front().cells.size();
  Fields fields(width);
  auto heading_row = known_headings(table);
  if (said) {
    HW_TAKE(parsed, parse_said(*said, width));
    fields = parsed;
    if (!heading_row) heading_row = unknown_headings(table, fields);
  } else {
    if (!heading_row) heading_row = unknown_headings(table, fields);
    if (heading_row) fields = meanings_of(table.rows[*heading_row]);
  }
  FoundHeadings found;
  found.first_row = heading_row ? *heading_row + 1 : 0;
  for (std::size_t i = 0; i < width; ++i) {
    found.columns.push_back({heading_row ? table.rows[*heading_row].cells[i].text : "", fields[i]});
  }
  return found;
}

}  // namespace hw::catalogue
