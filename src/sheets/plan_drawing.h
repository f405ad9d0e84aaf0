#pragma once
// The plan of a kind of machine, seen from above, as library/drawings.json has it; the app draws the same file. The
// file is part of the program. Its format is in library/README.md: shapes in hundredths of the plan's width and depth.

#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <boost/describe.hpp>

#include "libs/formats/pdf_canvas.h"
#include "src/catalogue/shop.h"

namespace hw::sheets {

// One of box (left, back, width, depth), disc (from the left, from the back, radius) and line (a path of M, L, H, V).
struct PlanShape {
  std::string of;    // the assembly that it shows; may be empty
  std::string look;  // shell, part, fine, hidden
  std::optional<std::vector<double>> box;
  std::optional<double> round;
  std::optional<std::vector<double>> disc;
  std::optional<std::string> line;
};
BOOST_DESCRIBE_STRUCT(PlanShape, (), (of, look, box, round, disc, line))

using PlanDrawing = std::vector<PlanShape>;

// Drawings by kind. Refuses what is no such file, naming kind and shape.
Result<std::map<std::string, PlanDrawing>> parse_drawings(std::string_view text);

// Of the program's own file; a kind that is not in it has a bare enclosure.
const PlanDrawing& drawing_of(const std::string& kind);

// The strokes of a path of absolute M, L, H and V steps, in its units; nothing where it is none.
std::optional<std::vector<std::vector<formats::MmPoint>>> parse_path(std::string_view path);

// The drawing as the largest square in the box, with the points on it: those in `chosen` large with their numbers, the
// others small.
void draw_plan(formats::PdfCanvas& canvas, const formats::MmBox& box, const PlanDrawing& drawing,
               std::span<const catalogue::Point> points, const std::set<int>& chosen);

}  // namespace hw::sheets
