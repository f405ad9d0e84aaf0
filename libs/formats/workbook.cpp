#include "libs/formats/workbook.h"

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>

#include <unistd.h>

extern "C" {
#include <xlsxwriter.h>
}

#include "libs/values/assert.h"

namespace hw::formats {
namespace {

// 2000-01-01: the library would write the time at which the file was made.
constexpr time_t made_at = 946'684'800;

// The library of Debian 12 writes into files only.
class PassingFile {
 public:
  PassingFile() : path_((std::filesystem::temp_directory_path() / "hourwright_XXXXXX").string()) {
    file_ = ::mkstemp(path_.data());
    if (file_ >= 0) ::close(file_);
  }
  ~PassingFile() {
    if (file_ >= 0) ::unlink(path_.c_str());
  }
  PassingFile(const PassingFile&) = delete;

  bool is_there() const { return file_ >= 0; }
  const std::string& path() const { return path_; }
  std::string read() const {
    std::ifstream in(path_, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  }

 private:
  std::string path_;
  int file_ = -1;
};

struct CellLooks {
  lxw_format* heading;
  lxw_format* text;
  lxw_format* numbers[4];  // in the order of NumberLook
};

CellLooks looks_of(lxw_workbook* book) {
  CellLooks looks{workbook_add_format(book), workbook_add_format(book), {}};
  format_set_bold(looks.heading);
  format_set_text_wrap(looks.heading);
  format_set_text_wrap(looks.text);
  format_set_align(looks.text, LXW_ALIGN_VERTICAL_TOP);
  constexpr const char* forms[] = {"#,##0.0", "#,##0", "0.0%", "General"};
  for (std::size_t i = 0; i < std::size(forms); ++i) {
    looks.numbers[i] = workbook_add_format(book);
    format_set_num_format(looks.numbers[i], forms[i]);
    format_set_align(looks.numbers[i], LXW_ALIGN_VERTICAL_TOP);
  }
  return looks;
}

struct SheetPlace {
  lxw_row_t line;
  lxw_col_t column;
};

// _x0041_ in a text would be read as the letter with that number; its first _ is then written as one (ISO/IEC 29500-1,
// 22.9.2.19), which the library does for control characters only.
std::string with_escapes(const std::string& text) {
  static constexpr std::string_view hexadecimal = "0123456789abcdefABCDEF";
  std::string out;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const std::string_view rest = std::string_view(text).substr(at, 7);
    const bool is_escape = rest.size() == 7 && rest.starts_with("_x") && rest[6] == '_' &&
                           rest.substr(2, 4).find_first_not_of(hexadecimal) == std::string_view::npos;
    out += is_escape ? "_x005F_" : text.substr(at, 1);
  }
  return out;
}

lxw_error write_cell(lxw_worksheet* sheet, SheetPlace at, const SheetCell& cell, lxw_format* of_text,
                     const CellLooks& looks) {
  if (const auto* text = std::get_if<std::string>(&cell)) {
    return worksheet_write_string(sheet, at.line, at.column, with_escapes(*text).c_str(), of_text);
  }
  const auto& number = std::get<SheetNumber>(cell);
  HW_ASSERT(std::isfinite(number.value), "a number of a sheet is finite");
  return worksheet_write_number(sheet, at.line, at.column, number.value,
                                looks.numbers[static_cast<std::size_t>(number.look)]);
}

lxw_error write_line(lxw_worksheet* sheet, lxw_row_t line, const SheetLine& cells, lxw_format* of_text,
                     const CellLooks& looks) {
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const auto error = write_cell(sheet, {line, static_cast<lxw_col_t>(i)}, cells[i], of_text, looks);
    if (error != LXW_NO_ERROR) return error;
  }
  return LXW_NO_ERROR;
}

lxw_error write_sheet(lxw_workbook* book, const WorkSheet& sheet, const CellLooks& looks) {
  lxw_worksheet* out = workbook_add_worksheet(book, sheet.name.c_str());
  HW_ASSERT(out != nullptr, "the name of a sheet can be one");
  for (std::size_t i = 0; i < sheet.widths.size(); ++i) {
    const auto column = static_cast<lxw_col_t>(i);
    worksheet_set_column(out, column, column, sheet.widths[i], nullptr);
  }
  worksheet_freeze_panes(out, 1, 0);
  auto error = write_line(out, 0, sheet.heading, looks.heading, looks);
  for (std::size_t i = 0; i < sheet.lines.size() && error == LXW_NO_ERROR; ++i) {
    error = write_line(out, static_cast<lxw_row_t>(i + 1), sheet.lines[i], looks.text, looks);
  }
  return error;
}

}  // namespace

Result<std::string> print_workbook(const std::string& title, const std::vector<WorkSheet>& sheets) {
  const PassingFile file;
  if (!file.is_there()) return refuse(ErrorCode::disk_full, "no file can be made in the folder for temporary files");
  lxw_workbook* book = workbook_new(file.path().c_str());
  HW_ASSERT(book != nullptr, "a workbook can be begun");
  std::string kept_title = title;
  lxw_doc_properties properties{};
  properties.title = kept_title.data();
  properties.created = made_at;
  workbook_set_properties(book, &properties);
  const CellLooks looks = looks_of(book);
  lxw_error error = LXW_NO_ERROR;
  for (const WorkSheet& sheet : sheets) {
    if (error == LXW_NO_ERROR) error = write_sheet(book, sheet, looks);
  }
  const lxw_error closed = workbook_close(book);  // frees it, whatever came before
  if (error != LXW_NO_ERROR) return refuse(ErrorCode::bad_input, "a text of the workbook: {}", lxw_strerror(error));
  if (closed != LXW_NO_ERROR) return refuse(ErrorCode::disk_full, "the workbook: {}", lxw_strerror(closed));
  return file.read();
}

}  // namespace hw::formats
