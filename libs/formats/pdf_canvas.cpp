#include "libs/formats/pdf_canvas.h"

#include <algorithm>
#include <numbers>

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

#include "libs/values/assert.h"

namespace hw::formats {
namespace {

constexpr double points_per_mm = 72.0 / 25.4;
// Named in their order, so that no other font of the machine is taken.
constexpr const char* font_family = "DejaVu Sans, WenQuanYi Zen Hei";
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

void keep_within(PangoLayout* layout, const MmBox& box, const TextStyle& style) {
  pango_layout_set_height(layout, pango_units(box.height_mm));
  pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
  pango_layout_set_alignment(layout, pango_align(style.align));
}

Owned<PangoLayout> broken_text(PangoContext* context, const std::string& line, double width_mm,
                               const TextStyle& style) {
  Owned<PangoLayout> layout{pango_layout_new(context)};
  set_font(layout.get(), style);
  pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
  pango_layout_set_width(layout.get(), pango_units(width_mm));
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  leave_out_hyphens(layout.get());
  pango_layout_set_text(layout.get(), line.data(), static_cast<int>(line.size()));
  return layout;
}

// A path of the present colour is filled, then edged.
void paint(cairo_t* cairo, const ShapeStyle& style) {
  if (style.inside) {
    cairo_set_source_rgb(cairo, *style.inside, *style.inside, *style.inside);
    cairo_fill_preserve(cairo);
    cairo_set_source_rgb(cairo, 0, 0, 0);
  }
  if (style.line_mm > 0) {
    const double dash = points(1);
    cairo_set_line_width(cairo, points(style.line_mm));
    cairo_set_line_join(cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_set_dash(cairo, &dash, style.edge == ShapeStyle::Edge::dashed ? 1 : 0, 0);
    cairo_stroke_preserve(cairo);
  }
  cairo_new_path(cairo);
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
  const auto layout = broken_text(drawing_->context.get(), one_line(text), box.width_mm, style);
  keep_within(layout.get(), box, style);
  cairo_save(cairo);
  cairo_rectangle(cairo, points(box.left_mm), points(box.top_mm), points(box.width_mm), points(box.height_mm));
  cairo_clip(cairo);
  cairo_move_to(cairo, points(box.left_mm), points(box.top_mm));
  pango_cairo_show_layout(cairo, layout.get());
  cairo_restore(cairo);
  return pango_layout_is_ellipsized(layout.get()) != FALSE ? TextShown::shortened : TextShown::whole;
}

double PdfCanvas::text_height_mm(const std::string& text, double width_mm, const TextStyle& style) const {
  const auto layout = broken_text(drawing_->context.get(), one_line(text), width_mm, style);
  int height = 0;
  pango_layout_get_size(layout.get(), nullptr, &height);
  // One unit more, so that the same text in a box of this height is not taken for too high by rounding.
  return pango_units_to_double(height + 1) / points_per_mm;
}

std::vector<std::string> PdfCanvas::text_lines(const std::string& text, double width_mm, const TextStyle& style) const {
  const std::string line = one_line(text);
  const auto layout = broken_text(drawing_->context.get(), line, width_mm, style);
  std::vector<std::string> lines;
  for (int i = 0; i < pango_layout_get_line_count(layout.get()); ++i) {
    const PangoLayoutLine* one = pango_layout_get_line_readonly(layout.get(), i);
    lines.push_back(line.substr(static_cast<std::size_t>(one->start_index), static_cast<std::size_t>(one->length)));
  }
  return lines;
}

void PdfCanvas::polyline(std::span<const MmPoint> through, const ShapeStyle& style) {
  HW_ASSERT(drawing_->pages > 0, "a page was begun before anything is drawn");
  cairo_t* cairo = drawing_->cairo.get();
  cairo_new_path(cairo);
  for (const auto& point : through) cairo_line_to(cairo, points(point.x_mm), points(point.y_mm));
  paint(cairo, {style.line_mm, {}, style.edge});
}

void PdfCanvas::box(const MmBox& box, double round_mm, const ShapeStyle& style) {
  HW_ASSERT(drawing_->pages > 0, "a page was begun before anything is drawn");
  cairo_t* cairo = drawing_->cairo.get();
  const double radius = points(std::min({round_mm, box.width_mm / 2, box.height_mm / 2}));
  const double left = points(box.left_mm) + radius;
  const double right = points(box.right_mm()) - radius;
  const double top = points(box.top_mm) + radius;
  const double bottom = points(box.bottom_mm()) - radius;
  constexpr double quarter = std::numbers::pi / 2;
  cairo_new_path(cairo);
  cairo_arc(cairo, right, top, radius, -quarter, 0);
  cairo_arc(cairo, right, bottom, radius, 0, quarter);
  cairo_arc(cairo, left, bottom, radius, quarter, 2 * quarter);
  cairo_arc(cairo, left, top, radius, 2 * quarter, 3 * quarter);
  cairo_close_path(cairo);
  paint(cairo, style);
}

void PdfCanvas::disc(MmPoint centre, double radius_mm, const ShapeStyle& style) {
  HW_ASSERT(drawing_->pages > 0, "a page was begun before anything is drawn");
  cairo_t* cairo = drawing_->cairo.get();
  cairo_new_path(cairo);
  cairo_arc(cairo, points(centre.x_mm), points(centre.y_mm), points(radius_mm), 0, 2 * std::numbers::pi);
  cairo_close_path(cairo);
  paint(cairo, style);
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
