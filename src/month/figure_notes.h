#pragma once
// What each key figure is, in words, and what that rests on. The standards themselves are not in the program.

#include <array>
#include <string_view>

#include "src/condition/standard_note.h"
#include "src/month/key_figures.h"

namespace hw::month {

struct FigureNote {
  FigureKey key;
  std::string_view title;
  std::string_view unit;  // "1" of a share, "h"
  std::string_view definition;
  std::string_view formula;
  condition::StandardNote standard;
};

inline constexpr std::size_t figure_count = 11;
// In the order of FigureKey.
extern const std::array<FigureNote, figure_count> figure_notes;

const FigureNote& note_of(FigureKey key);

}  // namespace hw::month
