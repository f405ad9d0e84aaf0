#pragma once
// From the unit in which a control says a number to the unit in which the model promises it.

#include <optional>
#include <string_view>

namespace hw::feeds {

// How many `units` one of the delivered numbers is: MILLIMETER/MINUTE to MILLIMETER/SECOND is 1/60. A nativeScale
// divides (a control that says hundredths has 100). Nothing where the two do not measure the same or are not known;
// 1 / native_scale where they are alike or one is empty.
std::optional<double> native_to_units(std::string_view native_units, std::string_view units, double native_scale);

}  // namespace hw::feeds
