#pragma once
// Where labels stand on a sheet: columns and rows of equal labels at a fixed pitch. Lengths in mm.

#include <vector>

#include "libs/formats/pdf_canvas.h"
#include "libs/values/result.h"

namespace hw::sheets {

// The default is A4 (ISO 216) with 3 columns and 8 rows of 64 x 34 mm, in the middle of the page.
struct LabelSheet {
  double page_width_mm = 210;
  double page_height_mm = 297;
  double margin_left_mm = 7;  // to the first label
  double margin_top_mm = 12.5;
  int columns = 3;
  int rows = 8;
  double pitch_x_mm = 66;  // from the left edge of one label to that of the next
  double pitch_y_mm = 34;
  double label_width_mm = 64;
  double label_height_mm = 34;

  int labels_per_page() const { return columns * rows; }
};

// For printers whose paper is a roll of labels: each page is one label.
LabelSheet one_per_page(formats::MmSize label);

inline constexpr double label_side_mm_min = 20;
inline constexpr double page_side_mm_max = 1200;
inline constexpr int columns_or_rows_max = 50;

// Refuses (bad_input, naming the number) what does not fit the page or lets labels overlap.
Result<void> check_sheet(const LabelSheet& sheet);

// One label's place.
struct LabelPlace {
  int page = 0;  // from 0
  formats::MmBox box;
};

// The places of so many labels, row by row, from the nth label (from 1) of the first page on; those before it are used
// up. Refuses a first label that the page does not have.
Result<std::vector<LabelPlace>> place_labels(const LabelSheet& sheet, int first_label, std::size_t labels);

}  // namespace hw::sheets
