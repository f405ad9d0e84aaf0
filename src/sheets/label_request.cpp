#include "src/sheets/label_request.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>

namespace hw::sheets {
namespace {

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

constexpr std::array<string_view, 4> names_of_single = {"base", "layout", "label_width_mm", "label_height_mm"};

using Settings = std::span<const LabelSetting>;

const std::string* find(Settings settings, string_view name) {
  const auto found = std::find_if(settings.begin(), settings.end(), [&](const auto& one) { return one.name == name; });
  return found == settings.end() ? nullptr : &found->value;
}

// A misspelt pitch would only show on paper, so nothing unknown is passed over.
Result<void> check_names(Settings settings, std::vector<string_view> known) {
  for (const LabelSetting& setting : settings) {
    if (std::find(known.begin(), known.end(), setting.name) == known.end()) {
      return refuse(ErrorCode::bad_input, "{}: there is no such parameter for this layout; right are {}", setting.name,
                    fmt::join(known, ", "));
    }
    const auto is_it = [&](const LabelSetting& other) { return other.name == setting.name; };
    if (std::count_if(settings.begin(), settings.end(), is_it) > 1) {
      return refuse(ErrorCode::bad_input, "{}: it is there twice; right is once", setting.name);
    }
  }
  return {};
}

// Leaves `out` as it is where the query does not have the number.
template <class Number>
Result<void> read_number(Settings settings, string_view name, Number& out) {
  const std::string* text = find(settings, name);
  if (!text) return {};
  Number number{};
  const auto [end, error] = std::from_chars(text->data(), text->data() + text->size(), number);
  const bool is_finite = std::isfinite(static_cast<double>(number));  // "nan" and "inf" are read as numbers
  if (error != std::errc{} || end != text->data() + text->size() || !is_finite) {
    return refuse(ErrorCode::bad_input, "{}: \"{}\" is no number; right is {}", name, text->substr(0, 60), out);
  }
  out = number;
  return {};
}

Result<LabelSheet> parse_sheet(Settings settings) {
  LabelSheet sheet;
  for (const auto& [name, field] : lengths) HW_TRY(read_number(settings, name, sheet.*field));
  HW_TRY(read_number(settings, "columns", sheet.columns));
  HW_TRY(read_number(settings, "rows", sheet.rows));
  return sheet;
}

Result<LabelSheet> parse_single(Settings settings) {
  formats::MmSize label = roll_label;
  HW_TRY(read_number(settings, "label_width_mm", label.width_mm));
  HW_TRY(read_number(settings, "label_height_mm", label.height_mm));
  return one_per_page(label);
}

// All names but that of the other labels' list.
std::vector<string_view> names_of_sheet(string_view things) {
  std::vector<string_view> names;
  for (const string_view name : label_setting_names) names.push_back(name == "machines" ? things : name);
  return names;
}

Result<LabelSheet> parse_layout(Settings settings, string_view things) {
  const std::string* said = find(settings, "layout");
  const string_view layout = said ? string_view(*said) : "sheet";
  if (layout == "sheet") {
    HW_TRY(check_names(settings, names_of_sheet(things)));
    return parse_sheet(settings);
  }
  if (layout == "single") {
    std::vector<string_view> names(names_of_single.begin(), names_of_single.end());
    names.insert(names.begin() + 1, things);
    HW_TRY(check_names(settings, std::move(names)));
    return parse_single(settings);
  }
  return refuse(ErrorCode::bad_input, "layout: \"{}\" is none; right is sheet or single", layout.substr(0, 60));
}

// What labels can be for, and how refusals name it.
struct Things {
  string_view all;  // "machines": also the setting that lists them
  string_view one;
};

template <class Thing>
Result<std::vector<Thing>> chosen_things(Settings settings, std::span<const Thing> things, const Things& names) {
  const std::string* wanted = find(settings, names.all);
  if (!wanted) return std::vector(things.begin(), things.end());
  std::map<string_view, const Thing*> by_key;
  for (const Thing& thing : things) by_key.emplace(thing.key, &thing);
  std::vector<Thing> chosen;
  for (string_view rest = *wanted;;) {
    const auto comma = std::min(rest.find(','), rest.size());
    const auto found = by_key.find(rest.substr(0, comma));
    if (found == by_key.end()) {
      return refuse(ErrorCode::not_found, "{}: there is no {} \"{}\"", names.all, names.one,
                    rest.substr(0, std::min<std::size_t>(comma, 60)));
    }
    chosen.push_back(*found->second);
    if (comma == rest.size()) return chosen;
    rest.remove_prefix(comma + 1);
  }
}

// All of an order but what its labels are for.
template <class Order>
Result<Order> parse_order(Settings settings, string_view things) {
  HW_TAKE(sheet, parse_layout(settings, things));
  Order order;
  order.sheet = sheet;
  HW_TRY(read_number(settings, "first_label", order.first_label));
  const std::string* base_address = find(settings, "base");
  if (!base_address) {
    return refuse(ErrorCode::bad_input,
                  "base: it is missing; right is the server's address as phones reach it, as in "
                  "http://shop.example:8470");
  }
  order.base_address = *base_address;
  return order;
}

}  // namespace

Result<LabelOrder> parse_label_order(Settings settings, std::span<const LabelledMachine> machines) {
  HW_TAKE(order, parse_order<LabelOrder>(settings, "machines"));
  HW_TAKE(chosen, chosen_things(settings, machines, {"machines", "machine"}));
  order.machines = std::move(chosen);
  return std::move(order);
}

Result<ShelfLabelOrder> parse_shelf_label_order(Settings settings, std::span<const ShelfPart> parts) {
  HW_TAKE(order, parse_order<ShelfLabelOrder>(settings, "parts"));
  HW_TAKE(chosen, chosen_things(settings, parts, {"parts", "part"}));
  order.parts = std::move(chosen);
  return std::move(order);
}

}  // namespace hw::sheets
