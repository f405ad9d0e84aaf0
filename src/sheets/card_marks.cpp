#include "src/sheets/card_marks.h"

#include <array>

#include <fmt/format.h>

namespace hw::sheets {

using formats::MmBox;
using formats::MmPoint;
using formats::PdfCanvas;
using formats::TextAlign;
using formats::TextWeight;

void draw_check(PdfCanvas& canvas, MmPoint left_middle) {
  canvas.box({left_middle.x_mm, left_middle.y_mm - check_side_mm / 2, check_side_mm, check_side_mm}, 0.4, {0.3, 1.0});
}

void draw_blank(PdfCanvas& canvas, const MmBox& box, const std::string& caption) {
  constexpr double caption_height_mm = 2.8;
  const double line_mm = box.bottom_mm() - caption_height_mm;
  const std::array<MmPoint, 2> line{{{box.left_mm, line_mm}, {box.right_mm() - 1.5, line_mm}}};
  canvas.polyline(line, {0.2});
  canvas.text(caption, {box.left_mm, line_mm + 0.2, box.width_mm - 1.5, caption_height_mm}, {caption_mm});
}

void draw_place(PdfCanvas& canvas, MmPoint centre, int number) {
  canvas.disc(centre, place_radius_mm, {0.35, 1.0});
  const double size_mm = number < 100 ? 2.7 : 2.1;
  const double height_mm = size_mm * 1.17;
  canvas.text(fmt::format("{}", number),
              {centre.x_mm - place_radius_mm, centre.y_mm - height_mm / 2, 2 * place_radius_mm, height_mm + 0.2},
              {size_mm, TextAlign::centre, TextWeight::bold});
}

}  // namespace hw::sheets
