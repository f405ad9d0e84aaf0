#include "src/sheets/shelf_labels.h"

#include <algorithm>

namespace hw::sheets {
namespace {

using formats::MmBox;
using formats::PdfCanvas;
using formats::TextAlign;
using formats::TextStyle;
using formats::TextWeight;

constexpr double largest_of_height = 0.8;  // letters of that share of their box fill it
constexpr double smaller = 0.92;
constexpr double least_mm = 1.6;  // read from a hand's breadth

TextStyle number_style(double size_mm) { return {size_mm, TextAlign::left, TextWeight::bold}; }

// The largest letters in which the number stands in one line; where these would be small, in several that fit.
TextStyle largest_style(const PdfCanvas& canvas, const TextPart& part, const std::string& number) {
  const double width_mm = part.box.width_mm;
  double size_mm = largest_of_height * part.box.height_mm;
  for (; size_mm > part.size_mm; size_mm *= smaller) {
    if (canvas.text_lines(number, width_mm, number_style(size_mm)).size() == 1) return number_style(size_mm);
  }
  while (size_mm > least_mm && canvas.text_height_mm(number, width_mm, number_style(size_mm)) > part.box.height_mm) {
    size_mm *= smaller;
  }
  return number_style(size_mm);
}

// A number cut short would be another part's.
Result<void> draw_number(PdfCanvas& canvas, const TextPart& part, const std::string& number) {
  const TextStyle style = largest_style(canvas, part, number);
  if (canvas.text(number, part.box, style) == formats::TextShown::whole) return {};
  return refuse(ErrorCode::bad_input, "label_width_mm, label_height_mm: {} has no room; right is a larger label",
                number);
}

Result<void> draw_shelf_label(PdfCanvas& canvas, const MmBox& box, const std::string& base_address,
                              const ShelfPart& part) {
  HW_TAKE(address, page_address(base_address, "/stores/", part.key));
  const ShelfLabelParts parts = place_shelf_parts(box);
  HW_TRY(draw_label_code(canvas, parts.qr, address));
  HW_TRY(draw_label_address(canvas, parts.address, address));
  HW_TRY(draw_number(canvas, parts.number, part.key));
  canvas.text(part.title, parts.title.box, {parts.title.size_mm, TextAlign::left, TextWeight::normal});
  canvas.text(part.place, parts.place.box, {parts.place.size_mm, TextAlign::left, TextWeight::bold});
  return {};
}

}  // namespace

std::vector<ShelfPart> shelf_parts(std::span<const catalogue::StoredPart> parts) {
  std::vector<ShelfPart> shelves;
  for (const auto& part : parts) shelves.push_back({part.number, part.title, part.place.value_or("")});
  std::sort(shelves.begin(), shelves.end(), [](const ShelfPart& a, const ShelfPart& b) {
    const auto order = [](const ShelfPart& part) { return std::tie(part.place, part.key); };
    return a.place.empty() != b.place.empty() ? b.place.empty() : order(a) < order(b);
  });
  return shelves;
}

Result<std::string> print_shelf_labels(const ShelfLabelOrder& order) {
  return print_label_pages(order.sheet, {"parts", order.parts.size(), order.first_label},
                           [&](PdfCanvas& canvas, const MmBox& box, std::size_t i) {
                             return draw_shelf_label(canvas, box, order.base_address, order.parts[i]);
                           });
}

}  // namespace hw::sheets
