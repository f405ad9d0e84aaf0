#pragma once
// The rows of a job card, one below the other, each with its height and how it is drawn. Lengths in mm.

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "libs/formats/pdf_canvas.h"
#include "src/sheets/sheet_flow.h"

namespace hw::sheets {

using Draw = std::function<void(formats::PdfCanvas&, const formats::MmBox&)>;

struct SheetRow {
  FlowRow flow;
  Draw draw;         // into its box; none for a gap
  std::string part;  // what goes on where a page begins in the middle of it; empty: nothing to say
};

// Where a text stands in its row.
struct Column {
  double left_mm = 0;  // from the row's left edge
  double width_mm = 0;
};

struct Blank {
  std::string caption;
  double share = 1;  // of the row's width, beside the others' shares
};

class CardRows {
 public:
  // `canvas` tells how high texts are; rows are `width_mm` wide.
  CardRows(const formats::PdfCanvas& canvas, double width_mm) : canvas_(canvas), width_mm_(width_mm) {}

  double width_mm() const { return width_mm_; }
  // How high the text is in that width.
  double height_mm(const std::string& text, double in_width_mm, const formats::TextStyle& style) const;

  // Rows from now on belong together under that name, until end_part().
  void begin_part(std::string title) { part_ = std::move(title); }
  void end_part();

  void gap(double height_mm);
  void add(double height_mm, RowTie tie, Draw draw);
  // A title with a rule above, tied to the row after it.
  void heading(const std::string& text);
  // As many rows as a long text needs.
  void text(const std::string& text, const Column& column, const formats::TextStyle& style, RowTie tie);
  // The same with a box to tick before it.
  void checked_text(const std::string& text, const Column& column, const formats::TextStyle& style, RowTie tie);
  // Blanks side by side over the width of the column.
  void blanks(const Column& column, std::vector<Blank> blanks, RowTie tie);

  std::span<const SheetRow> rows() const { return rows_; }

 private:
  const formats::PdfCanvas& canvas_;
  double width_mm_;
  std::string part_;
  std::vector<SheetRow> rows_;
};

}  // namespace hw::sheets
