#include "src/sheets/card_rows.h"

#include <array>

#include "src/sheets/card_marks.h"

namespace hw::sheets {
namespace {

using formats::MmBox;
using formats::MmPoint;
using formats::PdfCanvas;
using formats::TextStyle;
using formats::TextWeight;

constexpr double row_space_mm = 0.9;  // below a text
constexpr double heading_mm = 3.8;
// A text of more lines is divided, so that no row is as high as a page.
constexpr std::size_t row_lines_max = 20;

std::vector<std::string> pieces_of(const std::vector<std::string>& lines) {
  std::vector<std::string> pieces;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (i % row_lines_max == 0) pieces.emplace_back();
    pieces.back() += lines[i];
  }
  return pieces;
}

Draw drawn_text(std::string text, const Column& column, const TextStyle& style) {
  return [text = std::move(text), column, style](PdfCanvas& canvas, const MmBox& box) {
    canvas.text(text, {box.left_mm + column.left_mm, box.top_mm, column.width_mm, box.height_mm}, style);
  };
}

}  // namespace

double CardRows::height_mm(const std::string& text, double in_width_mm, const TextStyle& style) const {
  return canvas_.text_height_mm(text, in_width_mm, style);
}

void CardRows::end_part() {
  if (!rows_.empty()) rows_.back().flow.tie = RowTie::free;
  part_.clear();
}

void CardRows::gap(double height_mm) { rows_.push_back({{height_mm, RowTie::free, RowKind::gap}, {}, part_}); }

void CardRows::add(double height_mm, RowTie tie, Draw draw) {
  rows_.push_back({{height_mm, tie, RowKind::content}, std::move(draw), part_});
}

void CardRows::heading(const std::string& text) {
  const TextStyle style{heading_mm, formats::TextAlign::left, TextWeight::bold};
  const double text_mm = height_mm(text, width_mm_, style);
  add(text_mm + 4, RowTie::must, [text, style, text_mm](PdfCanvas& canvas, const MmBox& box) {
    const std::array<MmPoint, 2> rule{{{box.left_mm, box.top_mm + 1.6}, {box.right_mm(), box.top_mm + 1.6}}};
    canvas.polyline(rule, {0.5});
    canvas.text(text, {box.left_mm, box.top_mm + 2.6, box.width_mm, text_mm}, style);
  });
}

void CardRows::text(const std::string& text, const Column& column, const TextStyle& style, RowTie tie) {
  const auto pieces = pieces_of(canvas_.text_lines(text, column.width_mm, style));
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const bool is_last = i + 1 == pieces.size();
    add(height_mm(pieces[i], column.width_mm, style) + (is_last ? row_space_mm : 0), is_last ? tie : RowTie::should,
        drawn_text(pieces[i], column, style));
  }
}

void CardRows::checked_text(const std::string& words, const Column& column, const TextStyle& style, RowTie tie) {
  const std::size_t first = rows_.size();
  const double check_room_mm = check_side_mm + 1.6;
  text(words, {column.left_mm + check_room_mm, column.width_mm - check_room_mm}, style, tie);
  SheetRow& row = rows_.at(first);
  row.flow.height_mm = std::max(row.flow.height_mm, check_side_mm + row_space_mm + 0.5);
  const double middle_mm = std::max(style.size_mm * 1.17, check_side_mm) / 2;
  row.draw = [draw = row.draw, left_mm = column.left_mm, middle_mm](PdfCanvas& canvas, const MmBox& box) {
    draw_check(canvas, {box.left_mm + left_mm, box.top_mm + middle_mm});
    draw(canvas, box);
  };
}

void CardRows::blanks(const Column& column, std::vector<Blank> blanks, RowTie tie) {
  add(blank_height_mm, tie, [column, blanks = std::move(blanks)](PdfCanvas& canvas, const MmBox& box) {
    double shares = 0;
    for (const Blank& blank : blanks) shares += blank.share;
    double left_mm = box.left_mm + column.left_mm;
    for (const Blank& blank : blanks) {
      const double width_mm = column.width_mm * blank.share / shares;
      draw_blank(canvas, {left_mm, box.top_mm, width_mm, box.height_mm}, blank.caption);
      left_mm += width_mm;
    }
  });
}

}  // namespace hw::sheets
