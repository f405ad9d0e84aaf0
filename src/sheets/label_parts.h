#pragma once
// Where the parts of one label stand: the code at the left (on top where the label is tall), the words beside it, the
// address below everything. Lengths in mm on the page.

#include "libs/formats/pdf_canvas.h"

namespace hw::sheets {

// A box of text and the size of its letters.
struct TextPart {
  formats::MmBox box;
  double size_mm = 0;
};

struct LabelParts {
  formats::MmBox qr;  // a square, quiet zone included
  TextPart name;
  TextPart key;
  TextPart kind;
  TextPart cell;
  TextPart address;
};

// For a label of at least 20 x 20 mm. No part touches another or the label's edge.
LabelParts place_parts(const formats::MmBox& label);

// The same for a shelf: the part's number large, below it its title and its place.
struct ShelfLabelParts {
  formats::MmBox qr;
  TextPart number;  // letters of that size or larger stand in one line, smaller ones in several
  TextPart title;
  TextPart place;
  TextPart address;
};

ShelfLabelParts place_shelf_parts(const formats::MmBox& label);

}  // namespace hw::sheets
