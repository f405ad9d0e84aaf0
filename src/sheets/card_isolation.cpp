#include <fmt/format.h>

#include "src/catalogue/isolation_steps.h"
#include "src/sheets/card_marks.h"
#include "src/sheets/card_sections.h"
#include "src/sheets/card_text.h"

namespace hw::sheets {
namespace {

using formats::MmBox;
using formats::PdfCanvas;
using formats::TextAlign;
using formats::TextStyle;
using formats::TextWeight;

constexpr double sign_width_mm = 56;  // for who and when
constexpr int locks_on_a_card = 4;

void draw_mark(PdfCanvas& canvas, const MmBox& box, const SignedItem& item) {
  if (item.number.empty()) {
    draw_check(canvas, {box.left_mm + 5, box.top_mm + 2.6});
  } else {
    canvas.text(item.number, {box.left_mm, box.top_mm + 0.6, 5, 5}, {3.4, TextAlign::left, TextWeight::bold});
  }
  if (item.place) draw_place(canvas, {box.left_mm + 13, box.top_mm + 2.9}, *item.place);
}

void draw_signs(PdfCanvas& canvas, const MmBox& box, const CardWords& words) {
  const double left_mm = box.right_mm() - sign_width_mm;
  const double top_mm = box.bottom_mm() - blank_height_mm;
  draw_blank(canvas, {left_mm + 2, top_mm, 34, blank_height_mm}, std::string{words.who});
  draw_blank(canvas, {left_mm + 36, top_mm, 20, blank_height_mm}, std::string{words.time});
}

std::string titled(const CardContext& context, catalogue::EnergySource energy, const std::string& title) {
  return fmt::format("{} ({})", title, word_of(energy, context.language));
}

void add_subheading(CardRows& rows, std::string_view text) {
  rows.text(std::string{text}, {0, rows.width_mm()}, {3.3, TextAlign::left, TextWeight::bold}, RowTie::must);
}

// Below an item with a wait: when it began, and before when nothing is touched.
void add_wait(CardRows& rows, const CardContext& context, std::optional<double> wait_minutes) {
  if (!wait_minutes) return;
  const CardWords& words = context.words;
  const std::string text = fmt::format(fmt::runtime(words.wait), print_number(*wait_minutes, context.language));
  const double width_mm = rows.width_mm() - 17 - sign_width_mm - 1;
  const double text_mm = rows.height_mm(text, width_mm, bold_style);
  rows.add(blank_height_mm + 0.6, RowTie::should, [=, &words](PdfCanvas& canvas, const MmBox& box) {
    canvas.text(text, {box.left_mm + 17, box.top_mm + 2.5, width_mm, text_mm}, bold_style);
    const double left_mm = box.right_mm() - sign_width_mm;
    draw_blank(canvas, {left_mm + 2, box.top_mm, 26, blank_height_mm}, std::string{words.off_at});
    draw_blank(canvas, {left_mm + 28, box.top_mm, 28, blank_height_mm}, std::string{words.not_before});
  });
}

void add_points(CardRows& rows, const CardContext& context) {
  for (const auto& point : context.card.isolation.points) {
    add_signed(rows, context,
               {"",
                point.point,
                titled(context, point.energy, context.in_language(point.title, point.title_de)),
                {context.in_language(point.where, point.where_de) + ".", context.in_language(point.how, point.how_de)}},
               point.wait_minutes ? RowTie::must : RowTie::should);
    add_wait(rows, context, point.wait_minutes);
  }
}

void add_stored(CardRows& rows, const CardContext& context) {
  for (const auto& stored : context.card.isolation.stored) {
    add_signed(rows, context,
               {"",
                {},
                titled(context, stored.energy, context.in_language(stored.title, stored.title_de)),
                {context.in_language(stored.release, stored.release_de),
                 fmt::format("{} {}", context.words.seen, context.in_language(stored.verify, stored.verify_de))}},
               stored.wait_minutes ? RowTie::must : RowTie::should);
    add_wait(rows, context, stored.wait_minutes);
  }
}

void add_locks(CardRows& rows, const CardContext& context) {
  const CardWords& words = context.words;
  for (int i = 0; i < locks_on_a_card; ++i) {
    rows.blanks({5.5, rows.width_mm() - 5.5},
                {{std::string{words.lock_name}, 3},
                 {std::string{words.lock_number}, 1},
                 {std::string{words.lock_on}, 1.2},
                 {std::string{words.lock_off}, 2}},
                i + 1 < locks_on_a_card ? RowTie::must : RowTie::should);
  }
}

}  // namespace

void add_signed(CardRows& rows, const CardContext& context, const SignedItem& item, RowTie tie) {
  const double left_mm = item.number.empty() ? 17 : 5.5;
  const double width_mm = rows.width_mm() - left_mm - sign_width_mm - 1;
  std::vector<double> heights_mm;
  const double title_mm = item.title.empty() ? 0 : rows.height_mm(item.title, width_mm, bold_style);
  double height_mm = title_mm;
  for (const auto& text : item.says) {
    heights_mm.push_back(rows.height_mm(text, width_mm, body_style));
    height_mm += heights_mm.back() + 0.4;
  }
  rows.add(std::max(height_mm + 2.2, blank_height_mm + 0.6), tie,
           [=, &words = context.words](PdfCanvas& canvas, const MmBox& box) {
             draw_mark(canvas, box, item);
             double top_mm = box.top_mm + 0.9;
             canvas.text(item.title, {box.left_mm + left_mm, top_mm, width_mm, title_mm + 0.1}, bold_style);
             top_mm += title_mm + 0.2;
             for (std::size_t i = 0; i < item.says.size(); ++i) {
               canvas.text(item.says[i], {box.left_mm + left_mm, top_mm, width_mm, heights_mm[i]}, body_style);
               top_mm += heights_mm[i] + 0.4;
             }
             draw_signs(canvas, {box.left_mm, box.top_mm, box.width_mm, box.height_mm - 0.4}, words);
           });
}

void add_isolation(CardRows& rows, const CardContext& context) {
  const Column all{0, rows.width_mm()};
  const auto& isolation = context.card.isolation;
  rows.begin_part(std::string{context.words.isolate});
  add_subheading(rows, context.words.isolate);
  if (isolation.points.empty() && isolation.stored.empty()) {
    rows.text(std::string{context.words.no_isolation}, all, bold_style, RowTie::must);
  }
  int number = 0;
  for (const auto& step : catalogue::isolation_steps()) {
    const bool heads_a_list = step.code == "isolate" || step.code == "lock" || step.code == "release";
    add_signed(
        rows, context,
        {fmt::format("{}", ++number), {}, "", {context.in_language(std::string{step.text}, std::string{step.text_de})}},
        heads_a_list ? RowTie::must : RowTie::should);
    if (step.code == "isolate") add_points(rows, context);
    if (step.code == "lock") add_locks(rows, context);
    if (step.code == "release") add_stored(rows, context);
  }
  rows.end_part();
  rows.gap(2);
}

void add_way_back(CardRows& rows, const CardContext& context) {
  rows.begin_part(std::string{context.words.way_back});
  add_subheading(rows, context.words.way_back);
  int number = 0;
  for (const auto& step : catalogue::way_back_steps()) {
    add_signed(
        rows, context,
        {fmt::format("{}", ++number), {}, "", {context.in_language(std::string{step.text}, std::string{step.text_de})}},
        RowTie::should);
  }
  rows.end_part();
  rows.gap(2);
}

}  // namespace hw::sheets
