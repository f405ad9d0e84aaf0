#include "src/condition/viscosity_index.h"

#include <cmath>

#include "src/condition/viscosity_index_table.h"

namespace hw::condition {
namespace {

Result<void> check_oil(const IndexViscosities& oil) {
  if (!(oil.Y >= 2 && oil.Y <= 1000)) {
    return refuse(ErrorCode::bad_input, "Y: a viscosity at 100 C from 2 to 1000 mm2/s, not {}", oil.Y);
  }
  if (!(oil.U > oil.Y && oil.U <= 1e6)) {
    return refuse(ErrorCode::bad_input, "U: the viscosity at 40 C is above that at 100 C, {}; {} is not", oil.Y, oil.U);
  }
  for (const auto& given : {oil.L, oil.H}) {
    if (given && !(*given >= 1 && *given <= 1e7)) {
      return refuse(ErrorCode::bad_input, "L, H: from 1 to 10000000 mm2/s, not {}", *given);
    }
  }
  if (oil.L && !(*oil.L > oil.H.value_or(0))) {
    return refuse(ErrorCode::bad_input, "L: above H, not {}", *oil.L);
  }
  return {};
}

}  // namespace

Result<IndexReference> index_reference(double Y) {
  if (!(Y >= 2 && Y <= 1000)) {
    return refuse(ErrorCode::bad_input, "Y: a viscosity at 100 C from 2 to 1000 mm2/s, not {}", Y);
  }
  if (Y > 70) return IndexReference{0.8353 * Y * Y + 14.67 * Y - 216, 0.1684 * Y * Y + 11.85 * Y - 97};
  std::size_t next = 1;
  while (index_rows[next].Y < Y) ++next;
  const IndexRow& below = index_rows[next - 1];
  const IndexRow& above = index_rows[next];
  const double part = (Y - below.Y) / (above.Y - below.Y);
  return IndexReference{below.L + part * (above.L - below.L), below.H + part * (above.H - below.H)};
}

Result<ViscosityIndex> viscosity_index(const IndexViscosities& oil) {
  HW_TRY(check_oil(oil));
  HW_TAKE(reference, index_reference(oil.Y));
  ViscosityIndex index{.L = oil.L.value_or(reference.L), .H = oil.H.value_or(reference.H)};
  index.procedure = oil.procedure.value_or(oil.U >= index.H ? IndexProcedure::A : IndexProcedure::B);
  if (index.procedure == IndexProcedure::A) {
    if (!(index.L > index.H))
      return refuse(ErrorCode::bad_input, "L, H: L is above H; {} and {} are not", index.L, index.H);
    index.vi = 100 * (index.L - oil.U) / (index.L - index.H);
  } else {
    const double n = (std::log10(index.H) - std::log10(oil.U)) / std::log10(oil.Y);
    index.vi = (std::pow(10, n) - 1) / 0.00715 + 100;
  }
  index.rounded = std::lround(index.vi);
  return index;
}

}  // namespace hw::condition
