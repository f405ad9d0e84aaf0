#pragma once
// The table of headings: what we write and what is understood. Used by sheet_headings.

#include <array>
#include <span>
#include <string_view>

#include "src/catalogue/sheet_headings.h"

namespace hw::catalogue {

struct FieldWords {
  SheetField field;
  std::string_view word;
  std::string_view english;
  std::string_view german;
  // With blanks between, the clearest first; as without_marks makes them of headings.
  std::string_view understood;
};

// In the order of SheetField.
extern const std::array<FieldWords, sheet_field_count> field_words;

}  // namespace hw::catalogue
