#pragma once
// An order for labels in names and values, as the query of GET /api/labels.pdf and the options of `hourwright labels`
// have it. Names and standard numbers are those of api/openapi.yaml.

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "src/sheets/labels.h"
#include "src/sheets/shelf_labels.h"

namespace hw::sheets {

struct LabelSetting {
  std::string name;  // "pitch_x_mm"
  std::string value;
};

// All names that there are.
inline constexpr std::array<std::string_view, 14> label_setting_names = {
    "base",          "machines", "layout", "first_label", "page_width_mm", "page_height_mm", "margin_left_mm",
    "margin_top_mm", "columns",  "rows",   "pitch_x_mm",  "pitch_y_mm",    "label_width_mm", "label_height_mm"};

// Of `machines`, which are all of the shop in its order, those that are asked for, in the order asked for (the same one
// twice gives two labels), else all. Refuses (bad_input) names that are not there, twice the same one, what is no
// number; not_found for a machine that is not there. Whether the sheet fits its page is the printing's affair.
Result<LabelOrder> parse_label_order(std::span<const LabelSetting> settings, std::span<const LabelledMachine> machines);

// The same for shelves, whose parts are asked for under `parts` by their numbers: GET /api/stores/labels.pdf.
Result<ShelfLabelOrder> parse_shelf_label_order(std::span<const LabelSetting> settings,
                                                std::span<const ShelfPart> parts);

}  // namespace hw::sheets
