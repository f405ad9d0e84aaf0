#include "src/sheets/office_csv.h"

#include "libs/formats/csv.h"
#include "src/catalogue/sheet_numbers.h"

namespace hw::sheets {

std::string office_number(double number, CardLanguage language) {
  using catalogue::DecimalSign;
  return catalogue::print_digits(number, language == CardLanguage::german ? DecimalSign::comma : DecimalSign::point);
}

std::string print_office_csv(std::span<const std::string> headings, std::span<const std::vector<std::string>> rows,
                             CardLanguage language) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  return std::string(mark) + formats::print_csv(headings, rows, language == CardLanguage::german ? ';' : ',');
}

}  // namespace hw::sheets
