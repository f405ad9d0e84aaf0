#pragma once
// Labels for shelves: one a part, its number large, its title and place, and a QR code that opens the part's page.

#include <span>
#include <string>
#include <vector>

#include "src/catalogue/stored_part.h"
#include "src/sheets/label_drawing.h"

namespace hw::sheets {

struct ShelfPart {
  std::string key;  // its number
  std::string title;
  std::string place;
};

// By place and number, as one walks along shelves; those without a place last.
std::vector<ShelfPart> shelf_parts(std::span<const catalogue::StoredPart> parts);

struct ShelfLabelOrder {
  std::string base_address;  // of the server as phones reach it: "http://shop.example:8470"
  std::vector<ShelfPart> parts;
  LabelSheet sheet;
  int first_label = 1;
};

// The labels in the order of the parts, as PDF, with the address base + /stores/ + number; the same order gives the
// same bytes. Titles and places too long for their room are shortened. Refuses (bad_input) no part at all, a number
// that has no room, and what print_labels refuses.
Result<std::string> print_shelf_labels(const ShelfLabelOrder& order);

}  // namespace hw::sheets
