#pragma once
// The viscosity index by ASTM D2270 (as ISO 2909): how little an oil thins as it warms.
//
//   A, VI up to 100    VI = 100 (L - U) / (L - H)
//   B, from 100 on     VI = (10^N - 1) / 0.00715 + 100,  N = (log10 H - log10 U) / log10 Y
//
// U: viscosity at 40 C, Y: at 100 C, in mm2/s. L and H are those at 40 C of oils with VI 0 and 100 that have the same
// Y: table 1, interpolated between its rows; above 70 mm2/s L = 0.8353 Y^2 + 14.67 Y - 216, H = 0.1684 Y^2 + 11.85 Y
// - 97.

#include <optional>

#include "libs/values/result.h"
#include "src/condition/standard_note.h"

namespace hw::condition {

inline constexpr StandardNote viscosity_index_standard{"ASTM D2270 (ISO 2909)",
                                                       "both worked examples of the standard in public text; table 1 "
                                                       "as a public program has it: its rows agree with both examples",
                                                       "which procedure holds at exactly 100 (both give 100)",
                                                       "table 1, row by row, where the index decides about money"};

enum class IndexProcedure { A, B };

struct IndexViscosities {
  double U = 0, Y = 0;                           // mm2/s at 40 C and at 100 C; Y from 2 on, U above Y
  std::optional<double> L = {}, H = {};          // instead of those of table 1
  std::optional<IndexProcedure> procedure = {};  // instead of the one that holds
};

struct ViscosityIndex {
  double vi = 0;
  long rounded = 0;  // as it is reported
  IndexProcedure procedure = IndexProcedure::A;
  double L = 0, H = 0;
};

Result<ViscosityIndex> viscosity_index(const IndexViscosities& oil);

// L and H of table 1 or, above 70 mm2/s, of the formulas. Refuses Y below 2 and above 1000.
struct IndexReference {
  double L = 0, H = 0;
};
Result<IndexReference> index_reference(double Y);

}  // namespace hw::condition
