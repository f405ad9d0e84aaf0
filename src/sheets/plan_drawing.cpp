#include "src/sheets/plan_drawing.h"

#include <array>
#include <charconv>

#include "libs/formats/json.h"
#include "libs/values/assert.h"
#include "src/sheets/card_marks.h"
#include "src/sheets/drawings_text.h"

namespace hw::sheets {
namespace {

using formats::MmBox;
using formats::MmPoint;
using formats::PdfCanvas;
using formats::ShapeStyle;

struct Look {
  std::string_view name;
  ShapeStyle area;  // of boxes and discs
  double line_mm;   // of lines
};

constexpr std::array<Look, 4> looks{{{"shell", {0.4, 1.0}, 0.4},
                                     {"part", {0.2, 0.92}, 0.5},
                                     {"fine", {0.1, {}}, 0.1},
                                     {"hidden", {0.15, {}, ShapeStyle::Edge::dashed}, 0.15}}};

const Look* look_of(std::string_view name) {
  for (const Look& look : looks) {
    if (look.name == name) return &look;
  }
  return nullptr;
}

Result<void> check_shape(const PlanShape& shape) {
  if (look_of(shape.look) == nullptr) {
    return refuse(ErrorCode::bad_input, "look: it is shell, part, fine or hidden");
  }
  const int forms = (shape.box ? 1 : 0) + (shape.disc ? 1 : 0) + (shape.line ? 1 : 0);
  if (forms != 1) return refuse(ErrorCode::bad_input, "it is one of box, disc and line");
  if (shape.box && shape.box->size() != 4) return refuse(ErrorCode::bad_input, "box: it has four numbers");
  if (shape.disc && shape.disc->size() != 3) return refuse(ErrorCode::bad_input, "disc: it has three numbers");
  if (shape.line && !parse_path(*shape.line)) {
    return refuse(ErrorCode::bad_input, "line: it begins with M and has absolute steps M, L, H and V");
  }
  return {};
}

// Reads a path step by step; the place after what was read stays in `rest_`.
class PathReading {
 public:
  explicit PathReading(std::string_view path) : rest_(path) {}

  std::optional<std::vector<std::vector<MmPoint>>> read() {
    while (!rest_.empty()) {
      const char step = rest_.front();
      rest_.remove_prefix(1);
      if (!take(step)) return std::nullopt;
    }
    return strokes_.empty() ? std::nullopt : std::optional{std::move(strokes_)};
  }

 private:
  bool take(char step) {
    if (step != 'M' && strokes_.empty()) return false;
    if (step == 'H') return number(at_.x_mm) && go();
    if (step == 'V') return number(at_.y_mm) && go();
    if (step != 'M' && step != 'L') return false;
    if (step == 'M') strokes_.emplace_back();
    return number(at_.x_mm) && number(at_.y_mm) && go();
  }
  bool go() {
    strokes_.back().push_back(at_);
    return true;
  }
  bool number(double& value) {
    while (!rest_.empty() && rest_.front() == ' ') rest_.remove_prefix(1);
    const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value);
    if (error != std::errc{}) return false;
    rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
    return true;
  }

  std::string_view rest_;
  MmPoint at_;
  std::vector<std::vector<MmPoint>> strokes_;
};

// From hundredths of a plan to the page.
struct PlanPlace {
  MmBox square;

  double scaled(double hundredths) const { return hundredths / 100 * square.width_mm; }
  MmPoint at(double x, double y) const { return {square.left_mm + scaled(x), square.top_mm + scaled(y)}; }
};

void draw_shape(PdfCanvas& canvas, const PlanPlace& place, const PlanShape& shape) {
  const Look& look = *look_of(shape.look);
  if (shape.box) {
    const auto& box = *shape.box;
    const MmPoint begin = place.at(box[0], box[1]);
    canvas.box({begin.x_mm, begin.y_mm, place.scaled(box[2]), place.scaled(box[3])},
               place.scaled(shape.round.value_or(0)), look.area);
  } else if (shape.disc) {
    const auto& disc = *shape.disc;
    canvas.disc(place.at(disc[0], disc[1]), place.scaled(disc[2]), look.area);
  } else {
    auto strokes = *parse_path(*shape.line);
    for (auto& stroke : strokes) {
      for (auto& point : stroke) point = place.at(point.x_mm, point.y_mm);
      canvas.polyline(stroke, {look.line_mm, {}, look.area.edge});
    }
  }
}

MmBox square_in(const MmBox& box) {
  const double side_mm = std::min(box.width_mm, box.height_mm);
  return {box.left_mm + (box.width_mm - side_mm) / 2, box.top_mm + (box.height_mm - side_mm) / 2, side_mm, side_mm};
}

std::map<std::string, PlanDrawing> own_drawings() {
  auto drawings = parse_drawings(drawings_text);
  HW_ASSERT(drawings.has_value(), "library/drawings.json is read in a test");
  return *std::move(drawings);
}

}  // namespace

std::optional<std::vector<std::vector<MmPoint>>> parse_path(std::string_view path) { return PathReading(path).read(); }

Result<std::map<std::string, PlanDrawing>> parse_drawings(std::string_view text) {
  auto drawings = formats::parse_json<std::map<std::string, PlanDrawing>>(text);
  if (!drawings) return refuse(drawings.error());
  for (const auto& [kind, drawing] : *drawings) {
    for (std::size_t i = 0; i < drawing.size(); ++i) {
      const auto checked = check_shape(drawing[i]);
      if (!checked) return refuse(checked.error().at(fmt::format("{}[{}]", kind, i)));
    }
  }
  return *std::move(drawings);
}

const PlanDrawing& drawing_of(const std::string& kind) {
  static const std::map<std::string, PlanDrawing> drawings = own_drawings();
  static const PlanDrawing bare{{"", "shell", std::vector<double>{10, 10, 80, 84}, 2.0, {}, {}}};
  const auto found = drawings.find(kind);
  return found == drawings.end() ? bare : found->second;
}

void draw_plan(PdfCanvas& canvas, const MmBox& box, const PlanDrawing& drawing,
               std::span<const catalogue::Point> points, const std::set<int>& chosen) {
  const PlanPlace place{square_in(box)};
  for (const PlanShape& shape : drawing) draw_shape(canvas, place, shape);
  for (const auto& point : points) {
    if (!chosen.contains(point.number)) {
      canvas.disc(place.at(point.x * 100, point.y * 100), 0.8, {0.15, 1.0});
    }
  }
  for (const auto& point : points) {
    if (chosen.contains(point.number)) draw_place(canvas, place.at(point.x * 100, point.y * 100), point.number);
  }
}

}  // namespace hw::sheets
