#include "src/sheets/sheet_flow.h"

namespace hw::sheets {
namespace {

// What sums of heights may be off by.
constexpr double rounding_mm = 1e-6;

class Pages {
 public:
  Pages(std::span<const FlowRow> rows, const PageRoom& room) : rows_(rows), room_(room), left_mm_(room.first_mm) {}

  // The end of the rows from `begin` on that hold together at least by `tie`.
  std::size_t end_of(std::size_t begin, RowTie tie) const {
    std::size_t end = begin;
    while (end + 1 < rows_.size() && rows_[end].tie >= tie) ++end;
    return end + 1;
  }

  // Everything that is tied to the row at `begin`; gives back where the next begins.
  std::size_t put_tied(std::size_t begin) {
    const std::size_t end = end_of(begin, RowTie::should);
    if (height_mm(begin, end) <= left_mm_ + rounding_mm || height_mm(begin, end) <= room_.other_mm * whole_share_max) {
      put_whole(begin, end);
    } else {
      for (std::size_t piece = begin; piece < end;) {
        const std::size_t piece_end = end_of(piece, RowTie::must);
        put_whole(piece, piece_end);
        piece = piece_end;
      }
    }
    return end;
  }

  std::vector<std::vector<std::size_t>> take() { return std::move(pages_); }

 private:
  double height_mm(std::size_t begin, std::size_t end) const {
    double sum_mm = 0;
    for (std::size_t i = begin; i < end; ++i) sum_mm += rows_[i].height_mm;
    return sum_mm;
  }

  void put_whole(std::size_t begin, std::size_t end) {
    if (height_mm(begin, end) > left_mm_ + rounding_mm && !pages_.back().empty()) {
      pages_.emplace_back();
      left_mm_ = room_.other_mm;
    }
    for (std::size_t i = begin; i < end; ++i) {
      if (pages_.back().empty() && rows_[i].kind == RowKind::gap) continue;
      pages_.back().push_back(i);
      left_mm_ -= rows_[i].height_mm;
    }
  }

  std::span<const FlowRow> rows_;
  PageRoom room_;
  double left_mm_;
  std::vector<std::vector<std::size_t>> pages_{1};
};

}  // namespace

std::vector<std::vector<std::size_t>> split_pages(std::span<const FlowRow> rows, const PageRoom& room) {
  Pages pages(rows, room);
  for (std::size_t row = 0; row < rows.size();) row = pages.put_tied(row);
  return pages.take();
}

}  // namespace hw::sheets
