#pragma once
// What an evaluation by a standard rests on: it goes with every result. The standards themselves are not in the
// program; what was seen of them in public text and what is from memory is told apart, so that a shop that buys a copy
// knows where to look.

#include <string_view>

namespace hw::condition {

struct StandardNote {
  std::string_view edition;
  std::string_view confirmed;    // what agreed with public text or published results
  std::string_view from_memory;  // what did not get that far
  std::string_view check;        // what a bought copy is to be held against
};

}  // namespace hw::condition
