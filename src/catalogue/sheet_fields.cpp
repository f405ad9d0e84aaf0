#include "src/catalogue/sheet_fields.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/ranges.h>

#include "libs/values/assert.h"
#include "libs/values/small_letters.h"

namespace hw::catalogue {
namespace {

using formats::TableCell;

struct Mapped {
  std::string_view word;
  std::string_view plain;
};
// Common practice.
constexpr std::array<Mapped, 42> unit_names{{
    {"stk", "piece"}, {"stk.", "piece"},    {"stck", "piece"},   {"stck.", "piece"},  {"stück", "piece"},
    {"st", "piece"},  {"st.", "piece"},     {"stueck", "piece"}, {"pc", "piece"},     {"pc.", "piece"},
    {"pcs", "piece"}, {"pcs.", "piece"},    {"pce", "piece"},    {"pieces", "piece"}, {"piece", "piece"},
    {"ea", "piece"},  {"each", "piece"},    {"satz", "set"},     {"sätze", "set"},    {"sets", "set"},
    {"set", "set"},   {"liter", "l"},       {"litre", "l"},      {"litres", "l"},     {"liters", "l"},
    {"ltr", "l"},     {"ltr.", "l"},        {"l", "l"},          {"kilogramm", "kg"}, {"kilogram", "kg"},
    {"kilo", "kg"},   {"kg", "kg"},         {"gramm", "g"},      {"gram", "g"},       {"g", "g"},
    {"meter", "m"},   {"metre", "m"},       {"metres", "m"},     {"mtr", "m"},        {"lfm", "m"},
    {"m", "m"},       {"milliliter", "ml"},
}};

struct Factor {
  std::string_view word;
  double days;
};
constexpr std::array<Factor, 26> day_words{{
    {"", 1},       {"d", 1},       {"day", 1},    {"days", 1},    {"tag", 1},    {"tage", 1},    {"tagen", 1},
    {"t", 1},      {"tg", 1},      {"w", 7},      {"wk", 7},      {"week", 7},   {"weeks", 7},   {"woche", 7},
    {"wochen", 7}, {"wo", 7},      {"month", 30}, {"months", 30}, {"monat", 30}, {"monate", 30}, {"mon", 30},
    {"year", 365}, {"years", 365}, {"jahr", 365}, {"jahre", 365}, {"a", 365},
}};
constexpr std::array<std::string_view, 12> currencies{"",   "€",   "eur", "euro", "chf", "sfr",
                                                      "fr", "fr.", "$",   "usd",  "£",   "gbp"};
constexpr std::array<std::string_view, 9> yes_words{"yes", "y", "ja", "j", "true", "wahr", "x", "1", "✓"};
constexpr std::array<std::string_view, 7> no_words{"no", "n", "nein", "false", "falsch", "0", "-"};

constexpr std::size_t text_told = 60;  // of a long one that is wrong

template <class Words>
bool is_among(const Words& words, std::string_view word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

std::string_view without_blanks(std::string_view text) {
  constexpr std::string_view hard_blank = "\u00A0";
  for (std::size_t before = text.size() + 1; before != text.size();) {
    before = text.size();
    while (!text.empty() && std::string_view(" \t\r\n").find(text.front()) != std::string_view::npos)
      text.remove_prefix(1);
    while (!text.empty() && std::string_view(" \t\r\n").find(text.back()) != std::string_view::npos)
      text.remove_suffix(1);
    if (text.starts_with(hard_blank)) text.remove_prefix(hard_blank.size());
    if (text.ends_with(hard_blank)) text.remove_suffix(hard_blank.size());
  }
  return text;
}

// By what a word multiplies the number in that field; nothing where the word is none of it.
std::optional<double> factor_of(std::string_view word, SheetField field, std::string_view unit) {
  switch (field) {
    case SheetField::lead_days:
    case SheetField::shelf_life_days: {
      const auto found = std::find_if(day_words.begin(), day_words.end(), [&](auto one) { return one.word == word; });
      return found == day_words.end() ? std::nullopt : std::optional{found->days};
    }
    case SheetField::wanted:
      if (word == "%") return 0.01;
      break;
    case SheetField::price:
      if (is_among(currencies, without_blanks(word.substr(0, word.find('/'))))) return 1;
      break;
    default:
      if (plain_unit(word) == plain_unit(unit)) return 1;
  }
  return word.empty() ? std::optional{1.0} : std::nullopt;
}

tl::unexpected<Error> no_number(std::string_view cell) {
  const std::string_view text = cell.substr(0, text_told);
  return refuse(ErrorCode::bad_input, Saying{"sheet-no-number", {{"text", std::string(text)}}},
                "\"{}\" is no number; right is for example 12.50", text);
}

tl::unexpected<Error> two_ways(std::string_view cell, std::string_view digits) {
  const std::string text(cell.substr(0, text_told));
  const double with_point = read_digits(digits, DecimalSign::point).value_or(0);
  const double with_comma = read_digits(digits, DecimalSign::comma).value_or(0);
  const auto [less, more] = std::minmax(with_point, with_comma);
  return refuse(ErrorCode::bad_input, Saying{"sheet-two-ways", {{"text", text}}, {{"less", less}, {"more", more}}},
                "\"{}\" can be {} or {}, and no other number of the column tells which; write it without a mark "
                "between thousands, or with one more 0 behind",
                text, less, more);
}

// The parts of a list: "A; B" or one below the other; numbers of parts have no commas, so these part them too.
std::vector<std::string> split_list(std::string_view text, SheetField field) {
  const std::string_view marks = field == SheetField::substitutes ? ";\n\r," : ";\n\r";
  std::vector<std::string> parts;
  while (!text.empty()) {
    const auto end = std::min(text.find_first_of(marks), text.size());
    std::string part(without_blanks(text.substr(0, end)));
    if (!part.empty()) parts.push_back(std::move(part));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return parts;
}

std::optional<std::string>* text_field(StoredPart& part, SheetField field) {
  switch (field) {
    case SheetField::place:
      return &part.place;
    case SheetField::supplier:
      return &part.supplier;
    case SheetField::note:
      return &part.note;
    default:
      return nullptr;
  }
}

std::optional<double>* number_field(StoredPart& part, SheetField field) {
  switch (field) {
    case SheetField::price:
      return &part.price;
    case SheetField::pack:
      return &part.pack;
    case SheetField::minimum:
      return &part.minimum;
    case SheetField::lead_days:
      return &part.lead_days;
    case SheetField::wanted:
      return &part.wanted;
    case SheetField::failures_per_year:
      return &part.failures_per_year;
    default:
      return nullptr;
  }
}

std::optional<std::vector<std::string>>* list_field(StoredPart& part, SheetField field) {
  if (field == SheetField::names) return &part.names;
  return field == SheetField::substitutes ? &part.substitutes : nullptr;
}

bool is_same(const std::optional<double>& a, const std::optional<double>& b) {
  return a.has_value() == b.has_value() && (!a || is_same_number(*a, *b));
}

Result<void> put_number(std::optional<double>& field, std::optional<double> said) {
  if (!is_same(field, said)) field = said;
  return {};
}

Result<void> put_shelf_life(StoredPart& part, std::optional<double> days) {
  if (days && (*days != std::floor(*days) || std::abs(*days) > 1e6)) {
    return refuse(ErrorCode::bad_input, Saying{"sheet-not-whole", {{"unit", "d"}}, {{"value", *days}}},
                  "{} is no whole number of days", *days);
  }
  part.shelf_life_days = days ? std::optional{static_cast<int>(*days)} : std::nullopt;
  return {};
}

// Of the part's supplier.
std::vector<SupplierReference>::iterator find_reference(const StoredPart& part,
                                                        std::vector<SupplierReference>& references) {
  return std::find_if(references.begin(), references.end(),
                      [&](const auto& one) { return part.supplier && one.supplier == *part.supplier; });
}

Result<void> put_reference(StoredPart& part, const std::string& said) {
  auto references = part.references.value_or(std::vector<SupplierReference>{});
  const auto found = find_reference(part, references);
  if (said == (found == references.end() ? "" : plain_text(found->reference))) return {};
  if (!part.supplier) {
    return refuse(ErrorCode::bad_input, Saying{"sheet-no-supplier"},
                  "it is the number of a supplier, and the part has none; name the supplier in a column of its own");
  }
  if (said.empty()) {
    references.erase(found);
  } else if (found == references.end()) {
    references.push_back({*part.supplier, said});
  } else {
    found->reference = said;
  }
  part.references = references.empty() ? std::nullopt : std::optional{std::move(references)};
  return {};
}

Result<void> put_serial(StoredPart& part, const std::string& said) {
  const std::string word = in_small_letters(said);
  const bool is_no = is_among(no_words, word);
  if (!word.empty() && !is_no && !is_among(yes_words, word)) {
    const std::string told = said.substr(0, text_told);
    return refuse(ErrorCode::bad_input, Saying{"sheet-yes-no", {{"text", told}}}, "\"{}\" is neither yes nor no", told);
  }
  part.serial = word.empty() ? std::nullopt : std::optional{!is_no};
  return {};
}

void put_text(std::optional<std::string>& field, const std::string& said) {
  if (plain_text(field.value_or("")) == said) return;
  field = said.empty() ? std::nullopt : std::optional{said};
}

Result<void> put_text_cell(StoredPart& part, SheetField field, const std::string& said) {
  if (auto* text = text_field(part, field)) {
    put_text(*text, said);
  } else if (field == SheetField::title) {
    if (!said.empty() && plain_text(part.title) != said) part.title = said;
  } else if (field == SheetField::unit) {
    if (!said.empty() && plain_unit(plain_text(part.unit)) != plain_unit(said)) part.unit = plain_unit(said);
  } else if (auto* list = list_field(part, field)) {
    const std::vector<std::string> had =
        split_list(plain_text(cell_of(part, field, SheetLanguage::english).text), field);
    const std::vector<std::string> parts = split_list(said, field);
    if (parts != had) *list = parts.empty() ? std::nullopt : std::optional{parts};
  } else if (field == SheetField::reference) {
    return put_reference(part, said);
  } else if (field == SheetField::serial) {
    return put_serial(part, said);
  }
  return {};
}

TableCell number_cell_of(const std::optional<double>& number) {
  return number ? TableCell{fmt::format("{}", *number), number} : TableCell{};
}

std::string reference_of(const StoredPart& part) {
  auto references = part.references.value_or(std::vector<SupplierReference>{});
  const auto found = find_reference(part, references);
  return found == references.end() ? "" : found->reference;
}

std::string serial_word(const StoredPart& part, SheetLanguage language) {
  if (!part.serial) return "";
  if (language == SheetLanguage::german) return *part.serial ? "ja" : "nein";
  return *part.serial ? "yes" : "no";
}

}  // namespace

std::string plain_text(std::string_view cell) {
  const bool is_guarded =
      cell.size() > 1 && cell[0] == '\'' && std::string_view("=+-@\t\r\n").find(cell[1]) != std::string_view::npos;
  return std::string(without_blanks(is_guarded ? cell.substr(1) : cell));
}

std::string plain_unit(std::string_view unit) {
  const std::string small = in_small_letters(without_blanks(unit));
  const auto found = std::find_if(unit_names.begin(), unit_names.end(), [&](auto one) { return one.word == small; });
  return std::string(found == unit_names.end() ? without_blanks(unit) : found->plain);
}

Result<std::optional<double>> read_number_cell(const TableCell& cell, SheetField field, DecimalSign sign,
                                               std::string_view unit) {
  if (cell.number) return cell.number;
  const std::string text = plain_text(cell.text);
  if (text.empty()) return std::optional<double>{};
  const auto split = split_number(text);
  if (!split) return no_number(text);
  const auto factor = factor_of(split->word, field, unit);
  if (!factor) return no_number(text);
  const DecimalSign own = sign_told_by(std::string_view(split->digits));
  const DecimalSign used = own == DecimalSign::untold ? sign : own;
  if (used == DecimalSign::untold && has_two_ways(split->digits)) return two_ways(text, split->digits);
  const auto number = read_digits(split->digits, used);
  if (!number) return no_number(text);
  return std::optional{*factor == 0.01 ? *number / 100 : *number * *factor};
}

Result<void> put_cell(StoredPart& part, SheetField field, const TableCell& cell, DecimalSign sign) {
  HW_ASSERT(field != SheetField::number && field != SheetField::on_hand, "both are no fields of a part to be changed");
  if (!holds_number(field)) return put_text_cell(part, field, plain_text(cell.text));
  HW_TAKE(number, read_number_cell(cell, field, sign, part.unit));
  if (field == SheetField::shelf_life_days) return put_shelf_life(part, number);
  return put_number(*number_field(part, field), number);
}

TableCell cell_of(const StoredPart& part, SheetField field, SheetLanguage language) {
  StoredPart copy = part;
  if (const auto* text = text_field(copy, field)) return {text->value_or(""), {}};
  if (const auto* number = number_field(copy, field)) return number_cell_of(*number);
  if (const auto* list = list_field(copy, field)) {
    return {fmt::format("{}", fmt::join(list->value_or(std::vector<std::string>{}), "; ")), {}};
  }
  switch (field) {
    case SheetField::number:
      return {part.number, {}};
    case SheetField::title:
      return {part.title, {}};
    case SheetField::unit:
      return {part.unit, {}};
    case SheetField::reference:
      return {reference_of(part), {}};
    case SheetField::serial:
      return {serial_word(part, language), {}};
    case SheetField::shelf_life_days:
      return number_cell_of(part.shelf_life_days ? std::optional<double>{*part.shelf_life_days} : std::nullopt);
    default:
      return {};
  }
}

}  // namespace hw::catalogue
