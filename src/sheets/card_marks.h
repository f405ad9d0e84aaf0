#pragma once
// The small marks of a job card: boxes to tick, blanks to write on, the number of a place. Lengths in mm.

#include <string>

#include "libs/formats/pdf_canvas.h"

namespace hw::sheets {

inline constexpr double check_side_mm = 3.6;
inline constexpr double place_radius_mm = 2.5;
inline constexpr double body_mm = 2.8;           // of most letters
inline constexpr double small_mm = 2.4;          // of what is looked up
inline constexpr double caption_mm = 2.0;        // below blanks
inline constexpr double blank_height_mm = 10.5;  // room to write by hand and a caption below

inline constexpr formats::TextStyle body_style{body_mm};
inline constexpr formats::TextStyle bold_style{body_mm, formats::TextAlign::left, formats::TextWeight::bold};
inline constexpr formats::TextStyle small_style{small_mm};

// An empty square to tick, its left side and its middle's height given.
void draw_check(formats::PdfCanvas& canvas, formats::MmPoint left_middle);
// A line to write on along the foot of the box, and below it what belongs there.
void draw_blank(formats::PdfCanvas& canvas, const formats::MmBox& box, const std::string& caption);
// The number of a place on the plan in a disc.
void draw_place(formats::PdfCanvas& canvas, formats::MmPoint centre, int number);

}  // namespace hw::sheets
