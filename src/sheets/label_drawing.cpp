#include "src/sheets/label_drawing.h"

#include "libs/http/url.h"

namespace hw::sheets {
namespace {

using formats::PdfCanvas;
using formats::TextAlign;
using formats::TextStyle;
using formats::TextWeight;

// A label in a machine shop gets oil, chips and wipes: a quarter of the code may be gone.
constexpr auto level = formats::QrLevel::quartile;

}  // namespace

// An address cut short could not be typed, so that is refused.
Result<void> draw_label_address(PdfCanvas& canvas, const TextPart& part, const std::string& address) {
  const TextStyle style{part.size_mm, TextAlign::centre, TextWeight::normal};
  if (canvas.text(address, part.box, style) == formats::TextShown::whole) return {};
  return refuse(ErrorCode::bad_input, Saying{"label-address", {{"address", address}}},
                "base: {} does not fit below the code in two lines; right is a shorter base or a larger label",
                address);
}

Result<void> draw_label_code(PdfCanvas& canvas, const formats::MmBox& box, const std::string& address) {
  HW_TAKE(code, formats::encode_qr(address, level));
  const double module_mm = canvas.qr(code, box);
  if (module_mm >= module_mm_min) return {};
  return refuse(ErrorCode::bad_input, Saying{"label-code", {{"address", address}}, {{"least", module_mm_min}}},
                "label_width_mm, label_height_mm: the code of {} would have modules of {:.2f} mm, too small to be read "
                "surely; right is {} mm or more, by a larger label or a shorter base",
                address, module_mm, module_mm_min);
}

Result<std::string> page_address(std::string_view base_address, std::string_view page, std::string_view key) {
  const auto base = http::parse_url(base_address);
  if (!base) return refuse(base.error().at("base"));
  if (base->target.find('?') != std::string::npos) {
    return refuse(ErrorCode::bad_input,
                  "base: {} has a query; right is only the server, as in http://shop.example:8470", base_address);
  }
  return http::print(base->with(std::string(page) + http::percent_encode(key)));
}

Result<std::string> print_label_pages(const LabelSheet& sheet, const LabelCount& count, const DrawLabel& draw) {
  if (count.labels == 0) return refuse(ErrorCode::bad_input, "{}: there is none to print a label for", count.things);
  if (count.labels > labels_max) {
    return refuse(ErrorCode::too_large, "{}: {} labels are too many at once; right are at most {}", count.things,
                  count.labels, labels_max);
  }
  HW_TAKE(places, place_labels(sheet, count.first_label, count.labels));
  PdfCanvas canvas("Labels");
  int pages = 0;
  for (std::size_t i = 0; i < places.size(); ++i) {
    for (; pages <= places[i].page; ++pages) canvas.begin_page({sheet.page_width_mm, sheet.page_height_mm});
    HW_TRY(draw(canvas, places[i].box, i));
  }
  return canvas.finish();
}

}  // namespace hw::sheets
