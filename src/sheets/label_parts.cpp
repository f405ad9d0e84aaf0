#include "src/sheets/label_parts.h"

#include <algorithm>

namespace hw::sheets {
namespace {

using formats::MmBox;

// A line of text with the room above and below it, in sizes of its letters.
constexpr double line_per_size = 1.25;
constexpr int address_lines = 2;

// What a printer that feeds the paper half a millimetre askew must not cut.
double padding_mm(const MmBox& label) { return std::clamp(0.04 * std::min(label.width_mm, label.height_mm), 1.0, 3.0); }

MmBox shrunk(const MmBox& box, double by_mm) {
  return {box.left_mm + by_mm, box.top_mm + by_mm, box.width_mm - 2 * by_mm, box.height_mm - 2 * by_mm};
}

// Takes a strip off the bottom of the box.
MmBox take_bottom(MmBox& box, double height_mm) {
  box.height_mm -= height_mm;
  return {box.left_mm, box.bottom_mm(), box.width_mm, height_mm};
}

TextPart take_lines(MmBox& box, double size_mm, int lines) {
  return {take_bottom(box, lines * line_per_size * size_mm), size_mm};
}

// Takes the square for the code off the box; what is left is for the words.
MmBox take_qr(MmBox& box) {
  const bool is_tall = box.height_mm > 1.1 * box.width_mm;
  const double side_mm =
      is_tall ? std::min(box.width_mm, 0.68 * box.height_mm) : std::min(box.height_mm, 0.6 * box.width_mm);
  MmBox qr{box.left_mm, box.top_mm, side_mm, side_mm};
  if (is_tall) {
    qr.left_mm += (box.width_mm - side_mm) / 2;
    box = {box.left_mm, box.top_mm + side_mm, box.width_mm, box.height_mm - side_mm};
  } else {
    qr.top_mm += (box.height_mm - side_mm) / 2;
    box = {box.left_mm + side_mm, box.top_mm, box.width_mm - side_mm, box.height_mm};
  }
  return qr;
}

// Takes address and code off; what is left is for the words.
template <class Parts>
MmBox take_code(const MmBox& label, Parts& parts) {
  MmBox rest = shrunk(label, padding_mm(label));
  const double address_mm = std::clamp(0.07 * std::min(label.width_mm, label.height_mm), 2.0, 5.0);
  parts.address = take_lines(rest, address_mm, address_lines);
  parts.qr = take_qr(rest);
  return rest;
}

}  // namespace

LabelParts place_parts(const MmBox& label) {
  LabelParts parts;
  MmBox rest = take_code(label, parts);
  // Three lines of the name, one of the key, and kind and cell a little smaller fill the height.
  const double letters_mm = 0.14 * std::min(rest.height_mm, rest.width_mm);
  parts.cell = take_lines(rest, 0.8 * letters_mm, 1);
  parts.kind = take_lines(rest, 0.8 * letters_mm, 1);
  parts.key = take_lines(rest, letters_mm, 1);
  parts.name = {rest, letters_mm};
  return parts;
}

ShelfLabelParts place_shelf_parts(const MmBox& label) {
  ShelfLabelParts parts;
  MmBox rest = take_code(label, parts);
  const double letters_mm = 0.13 * std::min(rest.height_mm, rest.width_mm);
  parts.place = take_lines(rest, letters_mm, 1);
  parts.title = take_lines(rest, letters_mm, 3);
  parts.number = {rest, letters_mm};
  return parts;
}

}  // namespace hw::sheets
