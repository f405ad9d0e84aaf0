#include "src/sheets/report_paper.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "src/sheets/card_marks.h"
#include "src/sheets/card_rows.h"

namespace hw::sheets {
namespace {

using formats::MmBox;
using formats::MmSize;
using formats::PdfCanvas;
using formats::TextAlign;
using formats::TextStyle;
using formats::TextWeight;

constexpr double report_side_mm = 15;
constexpr double report_top_mm = 15;
constexpr double report_next_top_mm = 20;
constexpr double report_foot_mm = 15;
constexpr double between_columns_mm = 3;
constexpr double row_air_mm = 1;

// Where each column stands in a row of that width.
std::vector<Column> columns_in(const ReportTable& table, double width_mm) {
  double shares = 0;
  for (const ReportColumn& column : table.columns) shares += column.share;
  const double room_mm = width_mm - between_columns_mm * static_cast<double>(table.columns.size() - 1);
  std::vector<Column> columns;
  double left_mm = 0;
  for (const ReportColumn& column : table.columns) {
    const double column_mm = room_mm * column.share / shares;
    columns.push_back({left_mm, column_mm});
    left_mm += column_mm + between_columns_mm;
  }
  return columns;
}

struct TableLine {
  std::vector<std::string> texts;
  std::vector<TextStyle> styles;
};

void add_line(CardRows& rows, const std::vector<Column>& columns, TableLine line, RowTie tie) {
  double height_mm = 0;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    height_mm = std::max(height_mm, rows.height_mm(line.texts[i], columns[i].width_mm, line.styles[i]));
  }
  rows.add(height_mm + row_air_mm, tie, [columns, line = std::move(line)](PdfCanvas& canvas, const MmBox& box) {
    for (std::size_t i = 0; i < columns.size(); ++i) {
      canvas.text(line.texts[i], {box.left_mm + columns[i].left_mm, box.top_mm, columns[i].width_mm, box.height_mm},
                  line.styles[i]);
    }
    const std::array<formats::MmPoint, 2> rule{
        {{box.left_mm, box.bottom_mm() - 0.3}, {box.right_mm(), box.bottom_mm() - 0.3}}};
    canvas.polyline(rule, {0.1});
  });
}

TextStyle style_of(const ReportColumn& column, TextWeight weight) {
  return {small_mm, column.is_number ? TextAlign::right : TextAlign::left, weight};
}

void add_table(CardRows& rows, const ReportTable& table) {
  rows.gap(3);
  rows.heading(table.title);
  if (table.rows.empty()) return rows.text(table.none, {0, rows.width_mm()}, body_style, RowTie::free);
  const auto columns = columns_in(table, rows.width_mm());
  rows.begin_part(table.title);
  TableLine heads;
  for (const ReportColumn& column : table.columns) {
    heads.texts.push_back(column.title);
    heads.styles.push_back(style_of(column, TextWeight::bold));
  }
  add_line(rows, columns, std::move(heads), RowTie::must);
  for (const auto& row : table.rows) {
    TableLine line;
    for (std::size_t i = 0; i < row.size(); ++i) {
      line.texts.push_back(row[i].text);
      line.styles.push_back(style_of(table.columns[i], TextWeight::normal));
    }
    add_line(rows, columns, std::move(line), RowTie::free);
  }
  rows.end_part();
  if (!table.note.empty()) {
    rows.gap(2);
    rows.text(table.note, {0, rows.width_mm()}, body_style, RowTie::free);
  }
}

// The name of the table that goes on at the top of a page; empty where one begins there.
std::string going_on(std::span<const SheetRow> rows, const std::vector<std::size_t>& on_page) {
  const std::size_t first = on_page.front();
  return first > 0 && rows[first - 1].part == rows[first].part ? rows[first].part : "";
}

struct PagePlace {
  std::size_t page = 1;
  std::size_t pages = 1;
};

void draw_report_edges(PdfCanvas& canvas, const MmSize& size, const Report& report, const PagePlace& place) {
  const double width_mm = size.width_mm - 2 * report_side_mm;
  const MmBox foot{report_side_mm, size.height_mm - report_foot_mm + 4, width_mm, 4};
  canvas.text(report.title + "; " + report.subtitle, foot, small_style);
  canvas.text(fmt::format(fmt::runtime(report.page), place.page, place.pages), foot, {small_mm, TextAlign::right});
}

void draw_report_page(PdfCanvas& canvas, double top_mm, double width_mm, std::span<const SheetRow> rows,
                      const std::vector<std::size_t>& on_page) {
  for (const std::size_t i : on_page) {
    const double height_mm = rows[i].flow.height_mm;
    if (rows[i].draw) rows[i].draw(canvas, {report_side_mm, top_mm, width_mm, height_mm});
    top_mm += height_mm;
  }
}

}  // namespace

std::string print_report_paper(const Report& report, CardPaper paper) {
  const MmSize size = size_of(paper);
  const double width_mm = size.width_mm - 2 * report_side_mm;
  PdfCanvas canvas(report.title);
  CardRows rows(canvas, width_mm);
  rows.text(report.title, {0, width_mm}, {6, TextAlign::left, TextWeight::bold}, RowTie::must);
  rows.text(report.subtitle, {0, width_mm}, body_style, RowTie::must);
  for (const ReportTable& table : report.tables) add_table(rows, table);
  std::vector<FlowRow> flow;
  for (const SheetRow& row : rows.rows()) flow.push_back(row.flow);
  const double last_mm = size.height_mm - report_foot_mm;
  const auto pages = split_pages(flow, {last_mm - report_top_mm, last_mm - report_next_top_mm});
  for (std::size_t i = 0; i < pages.size(); ++i) {
    canvas.begin_page(size);
    draw_report_edges(canvas, size, report, {i + 1, pages.size()});
    const std::string goes_on = i == 0 || pages[i].empty() ? "" : going_on(rows.rows(), pages[i]);
    if (!goes_on.empty()) {
      canvas.text(fmt::format(fmt::runtime(report.continued), goes_on),
                  {report_side_mm, report_top_mm - 1, width_mm, 4.5}, bold_style);
    }
    draw_report_page(canvas, i == 0 ? report_top_mm : report_next_top_mm, width_mm, rows.rows(), pages[i]);
  }
  return canvas.finish();
}

}  // namespace hw::sheets
