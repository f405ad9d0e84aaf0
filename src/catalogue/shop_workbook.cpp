#include "src/catalogue/shop_workbook.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <regex>

#include <fmt/ranges.h>

#include "libs/formats/sheet.h"
#include "libs/formats/workbook.h"
#include "src/catalogue/shop_files.h"

namespace hw::catalogue {
namespace {

using formats::TableCell;
using formats::TableRow;

enum class FieldKind { text, number, flag, date, clock, weekdays, words };

struct Field {
  std::string_view name;
  FieldKind kind = FieldKind::text;
};

// What a sheet is called, and the table of the shop's file that its rows are.
struct SheetOfShop {
  std::string_view title;
  std::string_view table;
  std::vector<Field> fields;
};

const std::vector<SheetOfShop>& sheets_of_shop() {
  using enum FieldKind;
  static const std::vector<SheetOfShop> sheets{
      {"Plant", "[plant]", {{"name"}, {"zone"}, {"agent"}}},
      {"Shifts", "[[shift]]", {{"name"}, {"starts", clock}, {"ends", clock}, {"weekdays", weekdays}}},
      {"Closed days", "[[closed]]", {{"date", date}, {"why"}}},
      {"Cells", "[[cell]]", {{"key"}, {"title"}, {"max_down", number}}},
      {"People", "[[person]]", {{"name"}, {"skill"}, {"lead", flag}}},
      {"Machines",
       "[[machine]]",
       {{"key"},
        {"name"},
        {"kind"},
        {"cell"},
        {"year", number},
        {"note"},
        {"agent"},
        {"device"},
        {"standing_per_hour", number},
        {"fills", words}}}};
  return sheets;
}

std::string trimmed(const std::string& text) {
  const auto begin = text.find_first_not_of(" \t\r\n"), end = text.find_last_not_of(" \t\r\n");
  return begin == std::string::npos ? "" : text.substr(begin, end - begin + 1);
}

std::string in_small(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) { return std::tolower(c); });
  return text;
}

// A basic string of TOML.
std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char one : text) {
    if (one == '"' || one == '\\') out += '\\';
    if (static_cast<unsigned char>(one) < 0x20) {
      out += fmt::format("\\u{:04x}", static_cast<int>(one));
    } else {
      out += one;
    }
  }
  return out + "\"";
}

// Spreadsheets count days from 1899-12-30 (ISO/IEC 29500-1, 18.17.4.1, the 1900 date system after February 1900).
std::string date_of(const TableCell& cell, const std::string& text) {
  static const std::regex day_first(R"((\d{1,2})\.(\d{1,2})\.(\d{4}))");
  if (cell.number) return print(LocalDate::of(1899, 12, 30) + static_cast<int>(std::floor(*cell.number)));
  std::smatch found;
  if (!std::regex_match(text, found, day_first)) return text;
  return fmt::format("{}-{:02}-{:02}", found.str(3), std::stoi(found[2]), std::stoi(found[1]));
}

// A time is a part of a day there.
std::string clock_of(const TableCell& cell, const std::string& text) {
  if (!cell.number || *cell.number < 0 || *cell.number > 1) return text;
  const int minutes = static_cast<int>(std::lround(*cell.number * 24 * 60)) % (24 * 60);
  return fmt::format("{:02}:{:02}", minutes / 60, minutes % 60);
}

// "1-5", "1 2 3", "1, 2".
std::string weekdays_of(const std::string& text) {
  static const std::regex span(R"((\d)\s*-\s*(\d))"), day(R"(\d+)");
  std::vector<std::string> days;
  std::smatch found;
  if (std::regex_match(text, found, span)) {
    for (int one = std::stoi(found[1]); one <= std::stoi(found[2]); ++one) days.push_back(std::to_string(one));
  } else {
    days.assign(std::sregex_token_iterator(text.begin(), text.end(), day), {});
  }
  return fmt::format("[{}]", fmt::join(days, ", "));
}

// "operating = timer1; powered = timer2"
std::string words_of(const std::string& text) {
  static const std::regex pair(R"(([^=;]+)=([^;]+))");
  std::vector<std::string> pairs;
  for (std::sregex_iterator at(text.begin(), text.end(), pair), end; at != end; ++at) {
    pairs.push_back(fmt::format("{} = {}", quoted(trimmed(at->str(1))), quoted(trimmed(at->str(2)))));
  }
  return fmt::format("{{ {} }}", fmt::join(pairs, ", "));
}

std::string flag_of(const std::string& text) {
  static const std::array<std::string_view, 5> yes{"yes", "ja", "x", "true", "1"};
  static const std::array<std::string_view, 4> no{"no", "nein", "false", "0"};
  const std::string small = in_small(text);
  if (std::find(yes.begin(), yes.end(), small) != yes.end()) return "true";
  return std::find(no.begin(), no.end(), small) != no.end() ? "false" : quoted(text);
}

// As the shop's file has it; what is none is left as it stands, for parse_shop to refuse.
std::string value_of(const TableCell& cell, FieldKind kind) {
  const std::string text = trimmed(cell.text);
  switch (kind) {
    case FieldKind::text:
      return quoted(text);
    case FieldKind::number:
      return cell.number ? fmt::format("{}", *cell.number) : quoted(text);
    case FieldKind::flag:
      return flag_of(text);
    case FieldKind::date:
      return quoted(date_of(cell, text));
    case FieldKind::clock:
      return quoted(clock_of(cell, text));
    case FieldKind::weekdays:
      return weekdays_of(text);
    case FieldKind::words:
      return words_of(text);
  }
  return "";
}

// The shop's file that says what a workbook says, and where each of its lines comes from.
class AsFile {
 public:
  AsFile() { add("format = \"hourwright-shop-1\"", ""); }

  Result<void> add_sheet(const SheetOfShop& sheet, const std::vector<TableRow>& rows) {
    HW_TAKE(fields, fields_of(sheet, rows.front()));
    for (std::size_t i = 1; i < rows.size(); ++i) {
      const std::string where = fmt::format("sheet {}, row {}", sheet.title, rows[i].row);
      add(std::string{sheet.table}, where);
      for (std::size_t column = 0; column < fields.size(); ++column) {
        const TableCell& cell = rows[i].cells[column];
        if (fields[column] == nullptr || trimmed(cell.text).empty()) continue;
        add(fmt::format("{} = {}", fields[column]->name, value_of(cell, fields[column]->kind)), where);
      }
    }
    return {};
  }

  const std::string& text() const { return text_; }

  // ", machine 3, line 50, kind" is ", machine 3, sheet Machines, row 4, kind".
  std::string in_workbook(const std::string& message) const {
    static const std::regex line(R"(line (\d+))");
    std::smatch found;
    if (!std::regex_search(message, found, line)) return message;
    const auto number = static_cast<std::size_t>(std::stoul(found[1]));
    const std::string where = number >= 1 && number <= places_.size() ? places_[number - 1] : "";
    return where.empty() ? message : found.prefix().str() + where + found.suffix().str();
  }

 private:
  void add(const std::string& line, std::string place) {
    text_ += line + "\n";
    places_.push_back(std::move(place));
  }

  // A field for each column of the heading; none where nothing stands in it.
  static Result<std::vector<const Field*>> fields_of(const SheetOfShop& sheet, const TableRow& heading) {
    std::vector<const Field*> fields;
    for (const TableCell& cell : heading.cells) {
      const std::string name = in_small(trimmed(cell.text));
      const auto at =
          std::find_if(sheet.fields.begin(), sheet.fields.end(), [&](const Field& one) { return one.name == name; });
      if (at == sheet.fields.end() && !name.empty()) {
        std::vector<std::string_view> known;
        for (const Field& one : sheet.fields) known.push_back(one.name);
        return refuse(ErrorCode::bad_input, "sheet {}, row {}: there is no column \"{}\"; there are {}", sheet.title,
                      heading.row, name, fmt::join(known, ", "));
      }
      const bool is_twice = at != sheet.fields.end() && std::find(fields.begin(), fields.end(), &*at) != fields.end();
      if (is_twice) {
        return refuse(ErrorCode::bad_input, "sheet {}, row {}: the column \"{}\" is there twice", sheet.title,
                      heading.row, name);
      }
      fields.push_back(at == sheet.fields.end() ? nullptr : &*at);
    }
    return fields;
  }

  std::string text_;
  std::vector<std::string> places_;  // by line
};

Result<Shop> parse(const std::vector<formats::TitledSheet>& sheets, std::string_view name) {
  AsFile file;
  std::map<std::string, int> seen;
  for (const formats::TitledSheet& sheet : sheets) {
    const std::string title = in_small(trimmed(sheet.title));
    const auto& all = sheets_of_shop();
    const auto known = std::find_if(all.begin(), all.end(),
                                    [&](const SheetOfShop& one) { return in_small(std::string{one.title}) == title; });
    if (known == all.end() || seen[title]++ > 0) {
      return refuse(
          ErrorCode::bad_input,
          "there is a sheet \"{}\"; Plant, Shifts, Closed days, Cells, People and Machines are right, each once",
          sheet.title.substr(0, 60));
    }
    HW_TRY(file.add_sheet(*known, sheet.table.rows));
  }
  auto shop = parse_shop(file.text(), name);
  if (shop) return shop;
  Error error = shop.error();
  error.message = file.in_workbook(error.message);
  return refuse(std::move(error));
}

using formats::SheetCell;
using formats::SheetLine;

SheetCell text_cell(std::string text) { return SheetCell{std::move(text)}; }
SheetCell number_cell_of(double value) { return SheetCell{formats::SheetNumber{value, formats::NumberLook::plain}}; }
template <class Number>
SheetCell maybe_number(const std::optional<Number>& value) {
  return value ? number_cell_of(static_cast<double>(*value)) : text_cell("");
}
std::string clock_text(int minute) { return fmt::format("{:02}:{:02}", minute / 60, minute % 60); }

SheetLine line_of(const Shift& shift) {
  return {shift.name, clock_text(shift.begins_minute), clock_text(shift.ends_minute),
          fmt::format("{}", fmt::join(shift.weekdays, " "))};
}

SheetLine line_of(const Machine& machine) {
  std::vector<std::string> fills;
  for (const auto& [counter, item] : machine.fills) fills.push_back(fmt::format("{} = {}", counter, item));
  return {machine.key,
          machine.name,
          machine.kind,
          machine.cell,
          maybe_number(machine.year),
          machine.note,
          machine.agent,
          machine.device,
          maybe_number(machine.standing_per_hour),
          fmt::format("{}", fmt::join(fills, "; "))};
}

// In the order of sheets_of_shop().
std::vector<std::vector<SheetLine>> lines_of(const Shop& shop) {
  std::vector<std::vector<SheetLine>> lines(sheets_of_shop().size());
  lines[0].push_back({shop.plant, shop.calendar.zone.name(), shop.agent});
  for (const Shift& shift : shop.calendar.shifts) lines[1].push_back(line_of(shift));
  for (const ClosedDay& day : shop.calendar.closed) lines[2].push_back({print(day.on), day.why});
  for (const Cell& cell : shop.cells) lines[3].push_back({cell.key, cell.title, maybe_number(cell.max_down)});
  for (const Person& person : shop.people) {
    lines[4].push_back({person.name, std::string{word_of(person.skill)}, person.is_lead ? "yes" : ""});
  }
  for (const Machine& machine : shop.machines) lines[5].push_back(line_of(machine));
  return lines;
}

}  // namespace

Result<Shop> parse_shop_workbook(std::string_view bytes, std::string_view name) {
  auto sheets = formats::read_sheets(bytes);
  auto shop = sheets ? parse(*sheets, name) : Result<Shop>{refuse(sheets.error())};
  if (shop || shop.error().message.starts_with(name)) return shop;
  return refuse(shop.error().at(std::string{name}));
}

Result<std::string> print_shop_workbook(const Shop& shop) {
  std::vector<formats::WorkSheet> sheets;
  auto lines = lines_of(shop);
  for (const SheetOfShop& one : sheets_of_shop()) {
    formats::WorkSheet sheet{std::string{one.title}, {}, {}, std::move(lines[sheets.size()])};
    for (const Field& field : one.fields) {
      sheet.heading.push_back(std::string{field.name});
      sheet.widths.push_back(field.name == "note" || field.name == "name" || field.name == "title" ? 34 : 18);
    }
    sheets.push_back(std::move(sheet));
  }
  return formats::print_workbook(shop.plant, sheets);
}

}  // namespace hw::catalogue
