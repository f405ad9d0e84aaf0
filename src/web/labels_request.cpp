#include "src/web/labels_request.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace hw::web {
namespace {

using sheets::LabelSheet;
using std::string_view;

struct Length {
  string_view name;
  double LabelSheet::*field;
};
constexpr std::array<Length, 8> lengths{{{"page_width_mm", &LabelSheet::page_width_mm},
                                         {"page_height_mm", &LabelSheet::page_height_mm},
                                         {"margin_left_mm", &LabelSheet::margin_left_mm},
                                         {"margin_top_mm", &LabelSheet::margin_top_mm},
                                         {"pitch_x_mm", &LabelSheet::pitch_x_mm},
                                         {"pitch_y_mm", &LabelSheet::pitch_y_mm},
                                         {"label_width_mm", &LabelSheet::label_width_mm},
                                         {"label_height_mm", &LabelSheet::label_height_mm}}};

// The label of a roll that is asked for without a size.
constexpr formats::MmSize roll_label{60, 40};

constexpr auto names_of_single =
    std::to_array<string_view>({"base", "machines", "layout", "label_width_mm", "label_height_mm"});
constexpr auto names_of_sheet = std::to_array<string_view>(
    {"base", "machines", "layout", "first_label", "page_width_mm", "page_height_mm", "margin_left_mm", "margin_top_mm",
     "columns", "rows", "pitch_x_mm", "pitch_y_mm", "label_width_mm", "label_height_mm"});

// A misspelt pitch would only show on paper, so nothing unknown is passed over.
template <std::size_t count>
Result<void> check_names(const http::Request& request, const std::array<string_view, count>& known) {
  for (const auto& [name, value] : request.query) {
    if (std::find(known.begin(), known.end(), name) == known.end()) {
      return refuse(ErrorCode::bad_input, "{}: there is no such parameter for this layout; right are {}", name,
                    fmt::join(known, ", "));
    }
    const auto is_it = [&, &wanted = name](const http::NamedValue& other) { return other.name == wanted; };
    if (std::count_if(request.query.begin(), request.query.end(), is_it) > 1) {
      return refuse(ErrorCode::bad_input, "{}: it is there twice; right is once", name);
    }
  }
  return {};
}

// Leaves `out` as it is where the query does not have the number.
template <class Number>
Result<void> read_number(const http::Request& request, string_view name, Number& out) {
  const auto text = request.query_value(name);
  if (!text) return {};
  Number number{};
  const auto [end, error] = std::from_chars(text->data(), text->data() + text->size(), number);
  if (error != std::errc{} || end != text->data() + text->size()) {
    return refuse(ErrorCode::bad_input, "{}: \"{}\" is no number; right is {}", name, text->substr(0, 60), out);
  }
  out = number;
  return {};
}

Result<LabelSheet> parse_sheet(const http::Request& request) {
  LabelSheet sheet;
  for (const auto& [name, field] : lengths) HW_TRY(read_number(request, name, sheet.*field));
  HW_TRY(read_number(request, "columns", sheet.columns));
  HW_TRY(read_number(request, "rows", sheet.rows));
  return sheet;
}

Result<LabelSheet> parse_single(const http::Request& request) {
  formats::MmSize label = roll_label;
  HW_TRY(read_number(request, "label_width_mm", label.width_mm));
  HW_TRY(read_number(request, "label_height_mm", label.height_mm));
  return sheets::one_per_page(label);
}

Result<LabelSheet> parse_layout(const http::Request& request) {
  const string_view layout = request.query_value("layout").value_or("sheet");
  if (layout == "sheet") {
    HW_TRY(check_names(request, names_of_sheet));
    return parse_sheet(request);
  }
  if (layout == "single") {
    HW_TRY(check_names(request, names_of_single));
    return parse_single(request);
  }
  return refuse(ErrorCode::bad_input, "layout: \"{}\" is none; right is sheet or single", layout.substr(0, 60));
}

std::string title_of(const std::vector<service::TitledView>& all, const std::string& key) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const auto& titled) { return titled.key == key; });
  return found == all.end() ? key : found->title;
}

sheets::LabelledMachine labelled(const service::FloorMachineView& machine, const service::ShopView& shop) {
  return {machine.key, machine.name, title_of(shop.kinds, machine.kind), title_of(shop.cells, machine.cell)};
}

Result<const service::FloorMachineView*> find_machine(const service::FloorView& floor, string_view key) {
  for (const auto& machine : floor.machines) {
    if (machine.key == key) return &machine;
  }
  return refuse(ErrorCode::not_found, "machines: there is no machine \"{}\"", key.substr(0, 60));
}

Result<std::vector<sheets::LabelledMachine>> chosen_machines(const http::Request& request,
                                                             const service::ShopView& shop,
                                                             const service::FloorView& floor) {
  std::vector<sheets::LabelledMachine> chosen;
  const auto wanted = request.query_value("machines");
  if (!wanted) {
    for (const auto& machine : floor.machines) chosen.push_back(labelled(machine, shop));
    return chosen;
  }
  for (string_view rest = *wanted;;) {
    const auto comma = std::min(rest.find(','), rest.size());
    HW_TAKE(machine, find_machine(floor, rest.substr(0, comma)));
    chosen.push_back(labelled(*machine, shop));
    if (comma == rest.size()) return chosen;
    rest.remove_prefix(comma + 1);
  }
}

}  // namespace

Result<sheets::LabelOrder> parse_label_order(const http::Request& request, const service::ShopView& shop,
                                             const service::FloorView& floor) {
  HW_TAKE(sheet, parse_layout(request));
  sheets::LabelOrder order;
  order.sheet = sheet;
  HW_TRY(read_number(request, "first_label", order.first_label));
  const auto base_address = request.query_value("base");
  if (!base_address) {
    return refuse(ErrorCode::bad_input,
                  "base: it is missing; right is the server's address as phones reach it, as in "
                  "http://shop.example:8470");
  }
  order.base_address = *base_address;
  HW_TAKE(machines, chosen_machines(request, shop, floor));
  order.machines = std::move(machines);
  return order;
}

}  // namespace hw::web
