#include "src/sheets/labels.h"

#include <algorithm>

#include "libs/http/url.h"
#include "src/sheets/label_parts.h"

namespace hw::sheets {
namespace {

using formats::PdfCanvas;
using formats::TextAlign;
using formats::TextStyle;
using formats::TextWeight;

// A label in a machine shop gets oil, chips and wipes: a quarter of the code may be gone.
constexpr auto level = formats::QrLevel::quartile;

TextStyle style_of(const TextPart& part, TextWeight weight = TextWeight::normal) {
  return {part.size_mm, TextAlign::left, weight};
}

void draw_words(PdfCanvas& canvas, const LabelParts& parts, const LabelledMachine& machine) {
  canvas.text(machine.name, parts.name.box, style_of(parts.name, TextWeight::bold));
  canvas.text(machine.key, parts.key.box, style_of(parts.key, TextWeight::bold));
  canvas.text(machine.kind, parts.kind.box, style_of(parts.kind));
  canvas.text(machine.cell, parts.cell.box, style_of(parts.cell));
}

// An address cut short could not be typed, so that is refused.
Result<void> draw_address(PdfCanvas& canvas, const TextPart& part, const std::string& address) {
  const TextStyle style{part.size_mm, TextAlign::centre, TextWeight::normal};
  if (canvas.text(address, part.box, style) == formats::TextShown::whole) return {};
  return refuse(ErrorCode::bad_input, Saying{"label-address", {{"address", address}}},
                "base: {} does not fit below the code in two lines; right is a shorter base or a larger label",
                address);
}

Result<void> draw_code(PdfCanvas& canvas, const formats::MmBox& box, const std::string& address) {
  HW_TAKE(code, formats::encode_qr(address, level));
  const double module_mm = canvas.qr(code, box);
  if (module_mm >= module_mm_min) return {};
  return refuse(ErrorCode::bad_input, Saying{"label-code", {{"address", address}}, {{"least", module_mm_min}}},
                "label_width_mm, label_height_mm: the code of {} would have modules of {:.2f} mm, too small to be read "
                "surely; right is {} mm or more, by a larger label or a shorter base",
                address, module_mm, module_mm_min);
}

Result<void> draw_label(PdfCanvas& canvas, const formats::MmBox& box, const LabelOrder& order,
                        const LabelledMachine& machine) {
  HW_TAKE(address, machine_address(order.base_address, machine.key));
  const LabelParts parts = place_parts(box);
  HW_TRY(draw_code(canvas, parts.qr, address));
  HW_TRY(draw_address(canvas, parts.address, address));
  draw_words(canvas, parts, machine);
  return {};
}

template <class Titled>
std::string title_of(const std::vector<Titled>& all, const std::string& key) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const auto& titled) { return titled.key == key; });
  return found == all.end() ? key : found->title;
}

}  // namespace

LabelledMachine labelled(const catalogue::Machine& machine, const service::ShopRecord& shop) {
  return {machine.key, machine.name, title_of(shop.kinds, machine.kind), title_of(shop.cells, machine.cell)};
}

Result<std::string> machine_address(std::string_view base_address, std::string_view machine_key) {
  const auto base = http::parse_url(base_address);
  if (!base) return refuse(base.error().at("base"));
  if (base->target.find('?') != std::string::npos) {
    return refuse(ErrorCode::bad_input,
                  "base: {} has a query; right is only the server, as in http://shop.example:8470", base_address);
  }
  return http::print(base->with("/machine/" + http::percent_encode(machine_key)));
}

Result<std::string> print_labels(const LabelOrder& order) {
  if (order.machines.empty()) return refuse(ErrorCode::bad_input, "machines: there is none to print a label for");
  if (order.machines.size() > labels_max) {
    return refuse(ErrorCode::too_large, "machines: {} labels are too many at once; right are at most {}",
                  order.machines.size(), labels_max);
  }
  HW_TAKE(places, place_labels(order.sheet, order.first_label, order.machines.size()));
  PdfCanvas canvas("Labels");
  int pages = 0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    for (; pages <= places[i].page; ++pages) canvas.begin_page({order.sheet.page_width_mm, order.sheet.page_height_mm});
    HW_TRY(draw_label(canvas, places[i].box, order, order.machines[i]));
  }
  return canvas.finish();
}

}  // namespace hw::sheets
