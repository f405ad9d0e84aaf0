#include "src/sheets/label_sheet.h"

#include <string_view>

namespace hw::sheets {
namespace {

// What rounding may add to a sum of lengths that fits to the last tenth.
constexpr double rounding_mm = 1e-6;

template <class Number>
struct Limits {
  Number min;
  Number max;
};

template <class Number>
Result<void> check_within(std::string_view name, Number value, Limits<Number> limits) {
  if (value >= limits.min && value <= limits.max) return {};  // so written that "not a number" is refused
  return refuse(ErrorCode::bad_input, "{}: {} is out of range; right is {} to {}", name, value, limits.min, limits.max);
}

// One direction of the sheet, so that both are checked by the same words.
struct Direction {
  std::string_view page_name, margin_name, count_name, pitch_name, label_name;
  double page_mm, margin_mm;
  int count;
  double pitch_mm, label_mm;
};

Direction across(const LabelSheet& sheet) {
  return {"page_width_mm",     "margin_left_mm",     "columns",     "pitch_x_mm",     "label_width_mm",
          sheet.page_width_mm, sheet.margin_left_mm, sheet.columns, sheet.pitch_x_mm, sheet.label_width_mm};
}

Direction down(const LabelSheet& sheet) {
  return {"page_height_mm",     "margin_top_mm",     "rows",     "pitch_y_mm",     "label_height_mm",
          sheet.page_height_mm, sheet.margin_top_mm, sheet.rows, sheet.pitch_y_mm, sheet.label_height_mm};
}

Result<void> check_ranges(const Direction& direction) {
  const Limits<double> side{label_side_mm_min, page_side_mm_max};
  HW_TRY(check_within(direction.page_name, direction.page_mm, side));
  HW_TRY(check_within(direction.label_name, direction.label_mm, side));
  HW_TRY(check_within(direction.margin_name, direction.margin_mm, {0.0, page_side_mm_max}));
  HW_TRY(check_within(direction.pitch_name, direction.pitch_mm, {0.0, page_side_mm_max}));
  return check_within(direction.count_name, direction.count, {1, columns_or_rows_max});
}

Result<void> check_direction(const Direction& direction) {
  HW_TRY(check_ranges(direction));
  if (direction.count > 1 && direction.pitch_mm < direction.label_mm - rounding_mm) {
    return refuse(ErrorCode::bad_input, "{}: {} mm lets labels of {} mm overlap; right is at least {} ({})",
                  direction.pitch_name, direction.pitch_mm, direction.label_mm, direction.label_mm,
                  direction.label_name);
  }
  const double needed_mm = direction.margin_mm + (direction.count - 1) * direction.pitch_mm + direction.label_mm;
  if (needed_mm > direction.page_mm + rounding_mm) {
    return refuse(ErrorCode::bad_input, "{}: {} of them need {} mm, and {} is {} mm; right are fewer or smaller ones",
                  direction.count_name, direction.count, needed_mm, direction.page_name, direction.page_mm);
  }
  return {};
}

}  // namespace

LabelSheet one_per_page(formats::MmSize label) {
  return {label.width_mm, label.height_mm, 0, 0, 1, 1, label.width_mm, label.height_mm,
          label.width_mm, label.height_mm};
}

Result<void> check_sheet(const LabelSheet& sheet) {
  HW_TRY(check_direction(across(sheet)));
  return check_direction(down(sheet));
}

Result<std::vector<LabelPlace>> place_labels(const LabelSheet& sheet, int first_label, std::size_t labels) {
  HW_TRY(check_sheet(sheet));
  const int per_page = sheet.labels_per_page();
  HW_TRY(check_within("first_label", first_label, {1, per_page}));
  std::vector<LabelPlace> places;
  for (std::size_t i = 0; i < labels; ++i) {
    const int nth = first_label - 1 + static_cast<int>(i);
    const int column = nth % sheet.columns;
    const int row = nth % per_page / sheet.columns;
    places.push_back({nth / per_page,
                      {sheet.margin_left_mm + column * sheet.pitch_x_mm, sheet.margin_top_mm + row * sheet.pitch_y_mm,
                       sheet.label_width_mm, sheet.label_height_mm}});
  }
  return places;
}

}  // namespace hw::sheets
