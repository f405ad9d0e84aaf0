#include "src/storage/shipment_text.h"

#include <regex>

#include <fmt/ranges.h>

namespace hw::storage {

std::string print_head(const ShipmentHead& head) {
  return fmt::format("hourwright shipment 1 {} {} {} {} {}\n", head.plant, head.number, head.schema,
                     head.made_at.as_millis(), head.is_whole ? "whole" : "changes");
}

Result<ShipmentHead> parse_head(const std::string& line) {
  static const std::regex form(
      R"(hourwright shipment (\d{1,4}) ([a-z0-9-]{1,60}) (\d{1,18}) (\d{1,6}) (-?\d{1,15}) (whole|changes))");
  std::smatch found;
  if (!std::regex_match(line, found, form)) {
    return refuse(ErrorCode::bad_input, "\"{}\" is not how a shipment begins", line.substr(0, 60));
  }
  if (found[1] != "1") {
    return refuse(ErrorCode::unsupported, "it is of form {}, and this program reads form 1", found.str(1));
  }
  return ShipmentHead{found[2], std::stoll(found[3]), std::stoi(found[4]), Instant::from_millis(std::stoll(found[5])),
                      found[6] == "whole"};
}

std::string print_table_head(const TableHead& head) {
  return fmt::format("table {}({})\n", head.table, fmt::join(head.columns, ", "));
}

Result<TableHead> parse_table_head(const std::string& line) {
  static const std::regex form(R"(table (\w+)\((\w+(?:, \w+)*)\))"), word(R"(\w+)");
  std::smatch found;
  if (!std::regex_match(line, found, form)) {
    return refuse(ErrorCode::bad_input, "\"{}\" is not how a table begins", line.substr(0, 60));
  }
  const std::string columns = found[2];
  return TableHead{found[1], {std::sregex_token_iterator(columns.begin(), columns.end(), word), {}}};
}

}  // namespace hw::storage
