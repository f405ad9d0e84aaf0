#pragma once
// Why a line stands in a proposed order, in sentences with codes of a closed set.

#include <array>
#include <string_view>

#include "src/kits/line_choice.h"
#include "src/kits/propose_orders.h"

namespace hw::kits {

// Every code that a line's reasons can have.
inline constexpr std::array<std::string_view, 11> reason_codes = {
    "needed-for-stops",    "needed-when-due",   "needed-for-failures", "delivery-takes",
    "too-late-to-be-sure", "order-open",        "joins-an-order",      "more-costs-less",
    "minimum-raises",      "shelf-life-limits", "may-outlive-shelf"};

// A chance in percent to a tenth, rounded down: what is not reached does not look as if it were.
double percent_reached(double chance);

struct LineFacts {
  const StockCover& cover;
  const LineChoice& choice;
  const OrderLine& line;
  LocalDate today;
  int until_day = 0;        // what is needed is said up to this day
  bool joins = false;       // before its own last day
  double used_in_time = 1;  // the chance that all of the line is used within its shelf life
};

std::vector<Sentence> reasons_of(const LineFacts& facts);

}  // namespace hw::kits
