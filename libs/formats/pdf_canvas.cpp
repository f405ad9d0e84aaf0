#include "libs/formats/pdf_canvas.h"

#include <algorithm>

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

#include "libs/values/assert.h"

namespace hw::formats {
namespace {

constexpr double points_per_mm = 72.0 / 25.4;
constexpr const char* font_family = "DejaVu Sans";
// Cairo would write the present moment; a fixed one keeps equal sheets equal to the byte.
constexpr const char* made_at = "2026-01-01T00:00:00Z";

double points(double mm) { return mm * points_per_mm; }
int pango_units(double mm) { return pango_units_from_double(points(mm)); }

cairo_status_t append(void* file, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(file)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

struct Unreferenced {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* drawing) const { cairo_destroy(drawing); }
  void operator()(cairo_font_options_t* options) const { cairo_font_options_destroy(options); }
  void operator()(PangoFontMap* fonts) const { g_object_unref(fonts); }
  void operator()(PangoContext* context) const { g_object_unref(context); }
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
  void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
  void operator()(PangoAttrList* attributes) const { pango_attr_list_unref(attributes); }
};
template <class T>
using Owned = std::unique_ptr<T, Unreferenced>;

PangoAlignment pango_align(TextAlign align) {
  if (align == TextAlign::left) return PANGO_ALIGN_LEFT;
  return align == TextAlign::centre ? PANGO_ALIGN_CENTER : PANGO_ALIGN_RIGHT;
}

// Pango draws a sign for the end of a line, and nothing at all for what is no UTF-8.
std::string one_line(const std::string& text) {
  const std::unique_ptr<char, decltype(&g_free)> valid{g_utf8_make_valid(text.data(), static_cast<gssize>(text.size())),
                                                       g_free};
  std::string line{valid.get()};
  std::replace_if(
      line.begin(), line.end(), [](unsigned char c) { return c < 0x20; }, ' ');
  return line;
}

void set_font(PangoLayout* layout, const TextStyle& style) {
  const Owned<PangoFontDescription> font{pango_font_description_new()};
  pango_font_description_set_family(font.get(), font_family);
  pango_font_description_set_weight(font.get(),
                                    style.weight == TextWeight::bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(font.get(), pango_units(style.size_mm));
  pango_layout_set_font_description(layout, font.get());
}

// A hyphen that is not in the text would be typed by whoever reads an address.
void leave_out_hyphens(PangoLayout* layout) {
  const Owned<PangoAttrList> attributes{pango_attr_list_new()};
  pango_attr_list_insert(attributes.get(), pango_attr_insert_hyphens_new(FALSE));
  pango_layout_set_attributes(layout, attributes.get());
}

void set_lines(PangoLayout* layout, const MmBox& box, const TextStyle& style) {
  pango_layout_set_single_paragraph_mode(layout, TRUE);
  pango_layout_set_width(layout, pango_units(box.width_mm));
  pango_layout_set_height(layout, pango_units(box.height_mm));
  pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
  pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
  pango_layout_set_alignment(layout, pango_align(style.align));
}

// Letters stand where the font says, not on a screen's pixels.
void leave_letters_unrounded(PangoContext* context) {
  const Owned<cairo_font_options_t> options{cairo_font_options_create()};
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(context, options.get());
  pango_context_set_round_glyph_positions(context, FALSE);
}

}  // namespace

struct PdfCanvas::Drawing {
  std::string file;
  int pages = 0;
  Owned<cairo_surface_t> surface{cairo_pdf_surface_create_for_stream(append, &file, 1, 1)};
  Owned<cairo_t> cairo{cairo_create(surface.get())};
  Owned<PangoFontMap> fonts{pango_cairo_font_map_new()};
  Owned<PangoContext> context{pango_font_map_create_context(fonts.get())};
};

PdfCanvas::PdfCanvas(const std::string& title) : drawing_(std::make_unique<Drawing>()) {
  cairo_surface_t* surface = drawing_->surface.get();
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, made_at);
  leave_letters_unrounded(drawing_->context.get());
}

PdfCanvas::~PdfCanvas() = default;

void PdfCanvas::begin_page(MmSize size) {
  if (drawing_->pages++ > 0) cairo_show_page(drawing_->cairo.get());
  cairo_pdf_surface_set_size(drawing_->surface.get(), points(size.width_mm), points(size.height_mm));
}

TextShown PdfCanvas::text(const std::string& text, const MmBox& box, const TextStyle& style) {
  HW_ASSERT(drawing_->pages > 0, "a page was begun before anything is drawn");
  cairo_t* cairo = drawing_->cairo.get();
  const Owned<PangoLayout> layout{pango_layout_new(drawing_->context.get())};
  set_font(layout.get(), style);
  set_lines(layout.get(), box, style);
  leave_out_hyphens(layout.get());
  const std::string line = one_line(text);
  pango_layout_set_text(layout.get(), line.data(), static_cast<int>(line.size()));
  cairo_save(cairo);
  cairo_rectangle(cairo, points(box.left_mm), points(box.top_mm), points(box.width_mm), points(box.height_mm));
  cairo_clip(cairo);
  cairo_move_to(cairo, points(box.left_mm), points(box.top_mm));
  pango_cairo_show_layout(cairo, layout.get());
  cairo_restore(cairo);
  return pango_layout_is_ellipsized(layout.get()) != FALSE ? TextShown::shortened : TextShown::whole;
}

void PdfCanvas::fill(std::span<const MmBox> boxes) {
  HW_ASSERT(drawing_->pages > 0, "a page was begun before anything is drawn");
  cairo_t* cairo = drawing_->cairo.get();
  for (const auto& box : boxes) {
    cairo_rectangle(cairo, points(box.left_mm), points(box.top_mm), points(box.width_mm), points(box.height_mm));
  }
  cairo_fill(cairo);
}

double qr_module_mm(const QrCode& code, double side_mm) {
  return side_mm / (code.side_modules() + 2 * quiet_zone_modules);
}

double PdfCanvas::qr(const QrCode& code, const MmBox& box) {
  const double module_mm = qr_module_mm(code, std::min(box.width_mm, box.height_mm));
  const double side_mm = module_mm * code.side_modules();
  const double left_mm = box.left_mm + (box.width_mm - side_mm) / 2;
  const double top_mm = box.top_mm + (box.height_mm - side_mm) / 2;
  std::vector<MmBox> boxes;
  for (const auto& run : code.dark_runs()) {
    boxes.push_back(
        {left_mm + run.column * module_mm, top_mm + run.row * module_mm, run.modules * module_mm, module_mm});
  }
  fill(boxes);
  return module_mm;
}

std::string PdfCanvas::finish() {
  HW_ASSERT(drawing_->pages > 0, "a file has at least one page");
  cairo_show_page(drawing_->cairo.get());
  HW_ASSERT(cairo_status(drawing_->cairo.get()) == CAIRO_STATUS_SUCCESS, "cairo draws what it is told");
  cairo_surface_finish(drawing_->surface.get());
  HW_ASSERT(cairo_surface_status(drawing_->surface.get()) == CAIRO_STATUS_SUCCESS, "cairo writes into memory");
  return std::move(drawing_->file);
}

}  // namespace hw::formats
