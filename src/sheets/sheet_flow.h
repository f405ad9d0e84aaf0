#pragma once
// Rows of known heights, one below the other, onto pages: none is torn, a heading never stands alone at a page's foot,
// and what belongs together stays together where that does not leave a page half empty. Lengths in mm.

#include <span>
#include <vector>

namespace hw::sheets {

// How a row holds to the one after it.
enum class RowTie {
  free,    // the next page may begin between them
  should,  // only where the whole is long
  must     // never: a heading and what it heads
};

enum class RowKind { content, gap };  // a gap is left out at the top of a page

struct FlowRow {
  double height_mm = 0;
  RowTie tie = RowTie::free;
  RowKind kind = RowKind::content;
};

struct PageRoom {
  double first_mm = 0;  // on the first page
  double other_mm = 0;  // on every other
};

// What is tied by `should` and higher than this share of a page may be divided.
inline constexpr double whole_share_max = 0.4;

// The rows of each page, by their places in the list. A row that is higher than a page, or rows that must stay together
// and are, get a page of their own and stick out of it: whoever makes rows keeps them lower.
std::vector<std::vector<std::size_t>> split_pages(std::span<const FlowRow> rows, const PageRoom& room);

}  // namespace hw::sheets
