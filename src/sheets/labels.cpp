#include "src/sheets/labels.h"

#include <algorithm>

namespace hw::sheets {
namespace {

using formats::PdfCanvas;
using formats::TextAlign;
using formats::TextStyle;
using formats::TextWeight;

TextStyle style_of(const TextPart& part, TextWeight weight = TextWeight::normal) {
  return {part.size_mm, TextAlign::left, weight};
}

void draw_words(PdfCanvas& canvas, const LabelParts& parts, const LabelledMachine& machine) {
  canvas.text(machine.name, parts.name.box, style_of(parts.name, TextWeight::bold));
  canvas.text(machine.key, parts.key.box, style_of(parts.key, TextWeight::bold));
  canvas.text(machine.kind, parts.kind.box, style_of(parts.kind));
  canvas.text(machine.cell, parts.cell.box, style_of(parts.cell));
}

Result<void> draw_label(PdfCanvas& canvas, const formats::MmBox& box, const LabelOrder& order,
                        const LabelledMachine& machine) {
  HW_TAKE(address, machine_address(order.base_address, machine.key));
  const LabelParts parts = place_parts(box);
  HW_TRY(draw_label_code(canvas, parts.qr, address));
  HW_TRY(draw_label_address(canvas, parts.address, address));
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
  return page_address(base_address, "/machine/", machine_key);
}

Result<std::string> print_labels(const LabelOrder& order) {
  return print_label_pages(order.sheet, {"machines", order.machines.size(), order.first_label},
                           [&](PdfCanvas& canvas, const formats::MmBox& box, std::size_t i) {
                             return draw_label(canvas, box, order, order.machines[i]);
                           });
}

}  // namespace hw::sheets
