#pragma once
// What to order, as a list for a supplier: CSV, XLSX, PDF and the text of a mail.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "src/sheets/report_paper.h"

namespace hw::sheets {

struct OrderListLine {
  std::string number;  // the shop's own
  std::string title;
  std::string reference;  // what the supplier calls it; empty: not known
  double quantity = 0;
  std::string unit;
  std::optional<double> price = {};  // of one unit
  std::optional<LocalDate> wanted_on = {};
};

// To one supplier.
struct OrderList {
  std::string plant;  // who orders
  std::string supplier;
  LocalDate on;           // the day of the list
  std::string reference;  // the order's number; empty: none
  std::string currency;
  std::string note;
  std::vector<OrderListLine> lines;
};

// One table for each supplier, with the sum where all its lines have a price.
Report order_report(std::span<const OrderList> lists, CardLanguage language);

// As office_csv.h prints; one line an article, the supplier in a column, harmless to spreadsheets.
std::string print_order_csv(std::span<const OrderList> lists, CardLanguage language);
Result<std::string> print_order_workbook(std::span<const OrderList> lists, CardLanguage language);
std::string print_order_paper(std::span<const OrderList> lists, CardLanguage language, CardPaper paper);
// Plain text in UTF-8; one mail below the other where there are several suppliers.
std::string print_order_mail(std::span<const OrderList> lists, CardLanguage language);

}  // namespace hw::sheets
