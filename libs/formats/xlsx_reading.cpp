#include "libs/formats/xlsx_reading.h"

#include <charconv>
#include <cmath>
#include <functional>

#include "libs/formats/utf8.h"
#include "libs/formats/xml_reader.h"

namespace hw::formats {
namespace {

// _x000D_ stands for the letter with that number; a text that holds such a thing has its first _ as _x005F_ (ISO/IEC
// 29500-1, 22.9.2.19).
std::string without_escapes(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    unsigned point = 0;
    const bool may_be = text.size() >= 7 && text.starts_with("_x") && text[6] == '_';
    const auto read = may_be ? std::from_chars(text.data() + 2, text.data() + 6, point, 16)
                             : std::from_chars_result{text.data(), std::errc::invalid_argument};
    if (read.ec == std::errc() && read.ptr == text.data() + 6 && point != 0) {
      append_utf8(out, point);
      text.remove_prefix(7);
    } else {
      out += text.front();
      text.remove_prefix(1);
    }
  }
  return out;
}

// Texts of <t> are heard, but not those that say how a text is pronounced.
class TextListener : public XmlHandler {
 public:
  void text(XmlReader&, std::string_view text) override {
    if (is_in_text_ && !is_in_reading_) text_ += text;
  }

 protected:
  void heard_start(std::string_view name, std::string_view of_text) {
    if (name == "rPh") is_in_reading_ = true;
    if (name == "t" || name == of_text) is_in_text_ = true;
  }
  void heard_end(std::string_view name, std::string_view of_text) {
    if (name == "rPh") is_in_reading_ = false;
    if (name == "t" || name == of_text) is_in_text_ = false;
  }
  std::string take_text() { return std::exchange(text_, {}); }

 private:
  std::string text_;
  bool is_in_text_ = false;
  bool is_in_reading_ = false;
};

class SharedTexts : public TextListener {
 public:
  void start(XmlReader&, const XmlName& name, const XmlAttributes&) override { heard_start(name.local, "t"); }
  void end(XmlReader&, const XmlName& name) override {
    heard_end(name.local, "t");
    if (name.local == "si") texts.push_back(without_escapes(take_text()));
  }
  std::vector<std::string> texts;
};

// The column of "AB12" from 1 on; 0 where there is none.
std::size_t column_of(std::string_view place) {
  std::size_t column = 0;
  for (const char letter : place) {
    if (letter < 'A' || letter > 'Z' || column > 100'000) break;
    column = column * 26 + static_cast<std::size_t>(letter - 'A' + 1);
  }
  return column;
}

template <class Number>
std::optional<Number> number_of(std::string_view text) {
  Number number{};
  const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
  if (read.ec != std::errc() || read.ptr != text.data() + text.size()) return std::nullopt;
  if (!std::isfinite(static_cast<double>(number))) return std::nullopt;  // "nan" and "inf" are read as numbers
  return number;
}

// What spreadsheets show at most; the digits behind are their binary arithmetic's.
TableCell number_cell(double number) {
  const double shown = number_of<double>(fmt::format("{:.15g}", number)).value_or(number);
  return {fmt::format("{}", shown), shown};
}

class CellListener : public TextListener {
 public:
  CellListener(const std::vector<std::string>& shared, const SheetLimits& limits) : shared_(shared), limits_(limits) {}

  void start(XmlReader&, const XmlName& name, const XmlAttributes& attributes) override {
    heard_start(name.local, "v");
    if (name.local == "row") {
      row_ = number_of<std::uint64_t>(attributes.find("r").value_or("")).value_or(row_ + 1);
      column_ = 0;
    } else if (name.local == "c") {
      const std::size_t stated = column_of(attributes.find("r").value_or(""));
      column_ = stated > 0 ? stated : column_ + 1;
      type_ = attributes.find("t").value_or("n");
    }
  }

  void end(XmlReader& reader, const XmlName& name) override {
    heard_end(name.local, "v");
    if (name.local != "c") return;
    const std::string text = take_text();
    if (text.empty()) return;
    const auto cell = cell_of(text);
    if (!cell) return reader.refuse(cell.error());
    if (auto kept = keep(*cell); !kept) reader.refuse(kept.error());
  }

  std::vector<TableRow> rows;

 private:
  Result<TableCell> cell_of(const std::string& text) const {
    if (type_ == "s") {
      const auto index = number_of<std::size_t>(text);
      if (index && *index < shared_.size()) return TableCell{shared_[*index], {}};
      return refuse(ErrorCode::bad_input, "the workbook is damaged: a text that it names is missing");
    }
    if (type_ == "b") return TableCell{text == "1" ? "TRUE" : "FALSE", {}};
    if (type_ != "n") return TableCell{without_escapes(text), {}};
    const auto number = number_of<double>(text);
    if (!number || !std::isfinite(*number)) return TableCell{text, {}};
    return number_cell(*number);
  }

  Result<void> keep(TableCell cell) {
    if (column_ > limits_.columns_max) {
      return refuse(ErrorCode::too_large, "more than {} columns; leave out what is no part's", limits_.columns_max);
    }
    if (rows.empty() || rows.back().row != row_) rows.push_back({row_, {}});
    auto& cells = rows.back().cells;
    if (cells.size() < column_) {
      cells_ += column_ - cells.size();
      cells.resize(column_);
    }
    if (rows.size() > limits_.rows_max || cells_ > limits_.cells_max) {
      return refuse(ErrorCode::too_large, "more than {} rows or {} cells; divide the sheet", limits_.rows_max,
                    limits_.cells_max);
    }
    cells[column_ - 1] = std::move(cell);
    return {};
  }

  const std::vector<std::string>& shared_;
  const SheetLimits& limits_;
  std::uint64_t row_ = 0;
  std::size_t column_ = 0;
  std::size_t cells_ = 0;  // with the empty ones before filled ones
  std::string type_;
};

Result<std::vector<std::string>> shared_texts(const ZipArchive& archive, const std::string& part) {
  SharedTexts heard;
  if (part.empty()) return heard.texts;
  HW_TAKE(source, archive.file(part));
  HW_TRY(read_xml(*source, heard));
  return std::move(heard.texts);
}

bool has_text(const std::vector<TableRow>& rows) {
  for (const TableRow& row : rows) {
    for (const TableCell& cell : row.cells) {
      if (cell.text.find_first_not_of(" \t\r\n") != std::string::npos) return true;
    }
  }
  return false;
}

}  // namespace

// Sheets with something in them, in their order, as long as `take` wants more.
static Result<void> hear_sheets(std::string_view bytes, const SheetLimits& limits,
                                const std::function<bool(TitledSheet)>& take) {
  HW_TAKE(archive, ZipArchive::open(bytes, limits.unpacked_bytes_max));
  HW_TAKE(parts, find_workbook_parts(archive));
  HW_TAKE(shared, shared_texts(archive, parts.shared_texts));
  for (const SheetPart& sheet : parts.sheets) {
    HW_TAKE(source, archive.file(sheet.part));
    CellListener heard(shared, limits);
    if (auto read = read_xml(*source, heard); !read) return refuse(read.error());
    if (!has_text(heard.rows)) continue;
    if (!take({sheet.title, {{.kind = SheetKind::xlsx}, std::move(heard.rows)}})) return {};
  }
  return {};
}

Result<SheetTable> read_xlsx(std::string_view bytes, const SheetLimits& limits) {
  SheetTable table{{.kind = SheetKind::xlsx}, {}};
  const auto take_first = [&](TitledSheet sheet) {
    table = std::move(sheet.table);
    return false;
  };
  HW_TRY(hear_sheets(bytes, limits, take_first));
  return table;
}

Result<std::vector<TitledSheet>> read_xlsx_sheets(std::string_view bytes, const SheetLimits& limits) {
  std::vector<TitledSheet> sheets;
  const auto take_all = [&](TitledSheet sheet) {
    sheets.push_back(std::move(sheet));
    return true;
  };
  HW_TRY(hear_sheets(bytes, limits, take_all));
  return sheets;
}

}  // namespace hw::formats
