#include "src/sheets/order_list.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "libs/formats/csv.h"
#include "libs/formats/workbook.h"
#include "src/sheets/card_text.h"
#include "src/sheets/office_csv.h"
#include "src/sheets/order_words.h"

namespace hw::sheets {
namespace {

using Lists = std::span<const OrderList>;

// What is put into a sentence of the words.
template <class... Filled>
std::string said(std::string_view sentence, Filled&&... filled) {
  return fmt::format(fmt::runtime(sentence), std::forward<Filled>(filled)...);
}

std::string print_money(double amount, CardLanguage language) {
  std::string text = fmt::format("{:.2f}", amount);
  if (language == CardLanguage::german) std::replace(text.begin(), text.end(), '.', ',');
  return text;
}

// Of one unit: small ones have up to four decimals.
std::string print_price(double price, CardLanguage language) {
  const bool is_small = fmt::format("{:.4f}", price) != fmt::format("{:.2f}00", price);
  return is_small ? print_number(std::round(price * 1e4) / 1e4, language) : print_money(price, language);
}

std::string supplier_of(const OrderList& list, const OrderWords& words) {
  return list.supplier.empty() ? std::string(words.no_supplier) : list.supplier;
}

std::optional<double> sum_of(const OrderList& list) {
  double sum = 0;
  for (const OrderListLine& line : list.lines) {
    if (!line.price) return std::nullopt;
    sum += *line.price * line.quantity;
  }
  return list.lines.empty() ? std::nullopt : std::optional{sum};
}

std::string wanted_text(const OrderListLine& line, CardLanguage language) {
  return line.wanted_on ? print_day(*line.wanted_on, language) : "";
}

std::vector<ReportCell> row_of(const OrderListLine& line, CardLanguage language) {
  const std::string price = line.price ? print_price(*line.price, language) : "";
  const std::string amount = line.price ? print_money(*line.price * line.quantity, language) : "";
  return {{line.reference}, {line.number},
          {line.title},     {print_number(line.quantity, language), line.quantity, ReportUnit::amount},
          {line.unit},      {price, line.price, ReportUnit::amount},
          {amount},         {wanted_text(line, language)}};
}

ReportTable table_of(const OrderList& list, const OrderWords& words, CardLanguage language) {
  ReportTable table;
  table.title = supplier_of(list, words);
  table.columns = {{std::string(words.reference), 1.6},    {std::string(words.number), 1.4},
                   {std::string(words.title), 3},          {std::string(words.quantity), 0.9, true},
                   {std::string(words.unit), 0.8},         {std::string(words.price), 1, true},
                   {std::string(words.amount), 1.1, true}, {std::string(words.wanted), 1.5}};
  for (const OrderListLine& line : list.lines) table.rows.push_back(row_of(line, language));
  if (const auto sum = sum_of(list)) {
    std::vector<ReportCell> cells(table.columns.size());
    cells[2].text = said(words.sum, list.currency);
    cells[6].text = print_money(*sum, language);
    table.rows.push_back(std::move(cells));
  }
  table.note = list.reference.empty() ? "" : said(words.named, list.reference);
  if (!list.note.empty()) table.note += (table.note.empty() ? "" : "\n") + list.note;
  return table;
}

// The cells of a line of a table for programs: texts and numbers.
struct OrderCells {
  std::vector<std::string> headings;
  std::vector<formats::SheetLine> lines;
};

formats::SheetLine cells_of(const OrderList& list, const OrderListLine& line) {
  using formats::NumberLook;
  using formats::SheetNumber;
  formats::SheetLine cells{list.supplier,
                           list.reference,
                           hw::print(list.on),
                           line.reference,
                           line.number,
                           line.title,
                           SheetNumber{line.quantity, NumberLook::plain},
                           line.unit};
  cells.push_back(line.price ? formats::SheetCell{SheetNumber{*line.price, NumberLook::plain}} : std::string{});
  cells.push_back(line.wanted_on ? hw::print(*line.wanted_on) : std::string{});
  return cells;
}

OrderCells cells_of(Lists lists, const OrderWords& words) {
  OrderCells cells;
  for (const auto heading : {words.supplier, words.reference_of_order, words.day, words.reference, words.number,
                             words.title, words.quantity, words.unit, words.price, words.wanted}) {
    cells.headings.emplace_back(heading);
  }
  for (const OrderList& list : lists) {
    for (const OrderListLine& line : list.lines) cells.lines.push_back(cells_of(list, line));
  }
  return cells;
}

std::string mail_line(const OrderListLine& line, const OrderWords& words, CardLanguage language) {
  const std::string what = line.reference.empty() ? line.title : line.reference + ", " + line.title;
  std::string text = said(words.line, print_number(line.quantity, language), line.unit, what);
  text += said(words.our_number, line.number);
  if (line.wanted_on) text += said(words.wanted_by, print_day(*line.wanted_on, language));
  return text + "\n";
}

std::string mail_of(const OrderList& list, const OrderWords& words, CardLanguage language) {
  std::string text = said(words.subject, list.plant, print_day(list.on, language)) + "\n\n";
  text += std::string(words.greeting) + "\n\n" + said(words.please, list.plant) + "\n\n";
  for (const OrderListLine& line : list.lines) text += mail_line(line, words, language);
  text += "\n" + std::string(words.confirm) + "\n";
  if (!list.reference.empty()) text += said(words.named, list.reference) + "\n";
  if (!list.note.empty()) text += "\n" + list.note + "\n";
  return text + "\n" + std::string(words.regards) + "\n" + list.plant + "\n";
}

}  // namespace

Report order_report(Lists lists, CardLanguage language) {
  const OrderWords& words = order_words(language);
  Report report{.title = std::string(words.order),
                .subtitle = lists.empty() ? std::string(words.nothing)
                                          : lists.front().plant + ", " + print_day(lists.front().on, language),
                .page = std::string(words.page),
                .continued = std::string(words.continued),
                .tables = {}};
  for (const OrderList& list : lists) report.tables.push_back(table_of(list, words, language));
  return report;
}

std::string print_order_csv(Lists lists, CardLanguage language) {
  const OrderCells cells = cells_of(lists, order_words(language));
  std::vector<std::vector<std::string>> rows;
  for (const formats::SheetLine& line : cells.lines) {
    auto& row = rows.emplace_back();
    for (const formats::SheetCell& cell : line) {
      const auto* number = std::get_if<formats::SheetNumber>(&cell);
      row.push_back(number != nullptr ? office_number(number->value, language)
                                      : formats::harmless_cell(std::get<std::string>(cell)));
    }
  }
  return print_office_csv(cells.headings, rows, language);
}

Result<std::string> print_order_workbook(Lists lists, CardLanguage language) {
  const OrderWords& words = order_words(language);
  OrderCells cells = cells_of(lists, words);
  formats::WorkSheet sheet;
  sheet.name = std::string(words.order);
  sheet.widths = {24, 16, 12, 18, 14, 40, 10, 8, 10, 12};
  for (std::string& heading : cells.headings) sheet.heading.emplace_back(std::move(heading));
  sheet.lines = std::move(cells.lines);
  return formats::print_workbook(sheet.name, {sheet});
}

std::string print_order_paper(Lists lists, CardLanguage language, CardPaper paper) {
  return print_report_paper(order_report(lists, language), paper);
}

std::string print_order_mail(Lists lists, CardLanguage language) {
  const OrderWords& words = order_words(language);
  if (lists.empty()) return std::string(words.nothing) + "\n";
  std::string text;
  for (const OrderList& list : lists) {
    if (lists.size() > 1) text += (text.empty() ? "== " : "\n== ") + supplier_of(list, words) + " ==\n\n";
    text += mail_of(list, words, language);
  }
  return text;
}

}  // namespace hw::sheets
