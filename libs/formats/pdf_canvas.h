#pragma once
// A PDF drawn page by page in black and grey: text, lines, boxes, discs, QR codes; all as vectors, lengths in mm from
// the page's top left corner. The same calls give the same bytes: nothing in the file tells when or where it was made.
// Letters come from DejaVu Sans (Latin, Greek, Cyrillic) and, where it lacks them, from WenQuanYi Zen Hei (Chinese,
// Japanese, Korean); only those that are used go into the file.

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "libs/formats/qr.h"

namespace hw::formats {

struct MmSize {
  double width_mm = 0;
  double height_mm = 0;
  bool operator==(const MmSize&) const = default;
};

struct MmBox {
  double left_mm = 0;
  double top_mm = 0;
  double width_mm = 0;
  double height_mm = 0;

  double right_mm() const { return left_mm + width_mm; }
  double bottom_mm() const { return top_mm + height_mm; }
  bool operator==(const MmBox&) const = default;
};

struct MmPoint {
  double x_mm = 0;
  double y_mm = 0;
  bool operator==(const MmPoint&) const = default;
};

// How a shape is drawn: its edge as a black line of that width (0: none), its inside in grey from 0 (black) to 1
// (white), or left as it is.
struct ShapeStyle {
  double line_mm = 0.2;
  std::optional<double> inside = {};
  enum class Edge { solid, dashed } edge = Edge::solid;
};

enum class TextAlign { left, centre, right };
enum class TextWeight { normal, bold };

struct TextStyle {
  double size_mm = 3;  // of the em; a line is 1.17 times as high
  TextAlign align = TextAlign::left;
  TextWeight weight = TextWeight::normal;
};

// Whether all of a text stands there, or its end had to give way to an ellipsis.
enum class TextShown { whole, shortened };

class PdfCanvas {
 public:
  explicit PdfCanvas(const std::string& title);  // as the reader's window shows it
  ~PdfCanvas();

  // Everything drawn from now on is on a new page.
  void begin_page(MmSize size);
  // From the top of the box, in as many lines as fit, broken without hyphens between words (addresses after a slash),
  // or within a word longer than a line. Nothing is drawn outside of the box. UTF-8; what is none becomes U+FFFD,
  // control characters become blanks.
  TextShown text(const std::string& text, const MmBox& box, const TextStyle& style);
  // How high a box of that width has to be for all of the text.
  double text_height_mm(const std::string& text, double width_mm, const TextStyle& style) const;
  // The lines into which the text breaks at that width; together they are the text, without control characters.
  std::vector<std::string> text_lines(const std::string& text, double width_mm, const TextStyle& style) const;
  // A line through all the points; the inside is not filled.
  void polyline(std::span<const MmPoint> points, const ShapeStyle& style);
  // `round_mm`: the radius of its corners, at most half of its shorter side.
  void box(const MmBox& box, double round_mm, const ShapeStyle& style);
  void disc(MmPoint centre, double radius_mm, const ShapeStyle& style);
  // All boxes as one shape, so that no light line shows between neighbours.
  void fill(std::span<const MmBox> boxes);
  // The code with its quiet zone as the largest square within the box, in its middle. Gives back the side of one
  // module in mm.
  double qr(const QrCode& code, const MmBox& box);
  // The file. The canvas is used up.
  std::string finish();

 private:
  struct Drawing;
  std::unique_ptr<Drawing> drawing_;
};

// The side of one module of a code that is drawn with its quiet zone into a square of that side.
double qr_module_mm(const QrCode& code, double side_mm);

}  // namespace hw::formats
