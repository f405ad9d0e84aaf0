#include <algorithm>

#include <fmt/format.h>

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

constexpr double indent_mm = 7;  // of everything below a task's title

std::string place_of(const CardContext& context, const catalogue::Task& task) {
  const auto& points = context.card.points;
  const auto point =
      std::find_if(points.begin(), points.end(), [&](const auto& one) { return one.number == task.point; });
  if (point != points.end()) return point->title;
  const auto& all = context.card.assemblies;
  const auto found = std::find_if(all.begin(), all.end(), [&](const auto& one) { return one.key == task.assembly; });
  return found == all.end() ? task.assembly : found->title;
}

void add_title(CardRows& rows, const CardContext& context, const catalogue::Task& task) {
  const TextStyle style{3.3, TextAlign::left, TextWeight::bold};
  const double place_width_mm = 60;
  const double title_width_mm = rows.width_mm() - 15 - place_width_mm;
  const std::string place = place_of(context, task);
  const double text_mm = rows.height_mm(task.title, title_width_mm, style);
  const std::string number = fmt::format("{}", context.numbers.at(task.key));
  rows.add(text_mm + 3.4, RowTie::must, [=, &task](PdfCanvas& canvas, const MmBox& box) {
    const double band_mm = text_mm + 2.4;
    canvas.box({box.left_mm, box.top_mm, box.width_mm, band_mm}, 0.8, {0, 0.9});
    draw_check(canvas, {box.left_mm + 1.4, box.top_mm + 3.1});
    canvas.text(number, {box.left_mm + 6.8, box.top_mm + 1.2, 8, text_mm}, style);
    canvas.text(task.title, {box.left_mm + 13, box.top_mm + 1.2, title_width_mm, text_mm}, style);
    const double left_mm = box.right_mm() - place_width_mm;
    if (task.point) draw_place(canvas, {left_mm + 3, box.top_mm + 3.1}, *task.point);
    canvas.text(place, {left_mm + 7, box.top_mm + 1.6, place_width_mm - 8, 4}, small_style);
  });
}

// Which kind of work, by whom, how long, and when beside the other person's.
std::string way_of(const CardContext& context, const catalogue::Task& task, const CardWork& work) {
  const CardWords& words = context.words;
  std::string way = fmt::format("{} · {} · {} · ", word_of(task.work, context.language),
                                word_of(task.skill, context.language), print_minutes(task.minutes));
  way += fmt::format(fmt::runtime(words.person), work.person, print_clock(work.begin_minutes));
  const std::string after = context.numbers_of(work.after);
  if (!after.empty()) way += " · " + fmt::format(fmt::runtime(words.after), after);
  if (work.is_alone) way += fmt::format(" · {}", words.alone);
  return way;
}

void add_parts(CardRows& rows, const CardContext& context, const catalogue::Task& task, const Column& column) {
  if (task.parts.empty()) return;
  std::string list;
  for (const auto& part : task.parts) {
    list += list.empty() ? "" : "; ";
    list += fmt::format("{} {} {}", print_number(part.quantity, context.language), part.unit, part.name);
  }
  rows.text(fmt::format("{} {}", context.words.parts, list), column, body_style, RowTie::should);
}

// A value to write down, with its unit after the blank and what is right before it.
struct ValueBlank {
  std::string what;
  std::string limits;
  std::string unit;
};

void add_value(CardRows& rows, const Column& column, const ValueBlank& value, std::string_view caption) {
  rows.add(blank_height_mm, RowTie::should, [=, caption = std::string{caption}](PdfCanvas& canvas, const MmBox& box) {
    constexpr double value_width_mm = 40;
    constexpr double unit_width_mm = 24;
    const double text_width_mm = column.width_mm - value_width_mm - unit_width_mm;
    const double left_mm = box.left_mm + column.left_mm;
    canvas.text(value.what, {left_mm, box.top_mm + 1.2, text_width_mm, 4}, bold_style);
    canvas.text(value.limits, {left_mm, box.top_mm + 5.2, text_width_mm, 4}, body_style);
    draw_blank(canvas, {left_mm + text_width_mm, box.top_mm, value_width_mm, box.height_mm}, caption);
    canvas.text(value.unit, {left_mm + text_width_mm + value_width_mm, box.top_mm + 4.2, unit_width_mm, 4}, body_style);
  });
}

void add_values(CardRows& rows, const CardContext& context, const catalogue::Task& task, const Column& column) {
  for (const auto& reading : task.readings) {
    add_value(rows, column, {reading.what, print_limits(reading, context.language), reading.unit},
              context.words.reading);
  }
  if (task.quantity_unit) {
    add_value(rows, column, {std::string{context.words.quantity}, "", *task.quantity_unit}, context.words.quantity);
  }
}

// Marks for as found and what was left undone.
void add_marks(CardRows& rows, const CardContext& context, const Column& column) {
  const CardWords& words = context.words;
  rows.add(6.2, RowTie::must, [=, &words](PdfCanvas& canvas, const MmBox& box) {
    const double middle_mm = box.top_mm + 3.4;
    double left_mm = box.left_mm + column.left_mm;
    canvas.text(std::string{words.as_found}, {left_mm, box.top_mm + 1.8, 24, 4}, body_style);
    left_mm += 24;
    for (const auto& [word, width_mm] : {std::pair{words.good, 24.0}, std::pair{words.worn, 32.0},
                                         std::pair{words.failed, 40.0}, std::pair{words.left_undone, 40.0}}) {
      draw_check(canvas, {left_mm, middle_mm});
      canvas.text(std::string{word}, {left_mm + 5.2, box.top_mm + 1.8, width_mm - 6, 4}, body_style);
      left_mm += width_mm;
    }
  });
}

void add_change(CardRows& rows, const CardContext& context, StateChange change) {
  const CardWords& words = context.words;
  if (change == StateChange::isolate) return add_isolation(rows, context);
  if (change == StateChange::release) return add_way_back(rows, context);
  if (change == StateChange::none) return;
  const std::string says{change == StateChange::restart ? words.restart : words.shut_down};
  // The end of the stop goes with the restart, so that it is not alone on a page.
  add_signed(rows, context, {"", {}, "", {says}}, RowTie::should);
}

const catalogue::Task& task_of(const JobCard& card, const std::string& key) {
  return *std::find_if(card.tasks.begin(), card.tasks.end(), [&](const auto& task) { return task.key == key; });
}

}  // namespace

void add_task(CardRows& rows, const CardContext& context, const catalogue::Task& task, const CardWork& work) {
  const CardWords& words = context.words;
  const Column column{indent_mm, rows.width_mm() - indent_mm};
  rows.begin_part(fmt::format("{} {}", context.numbers.at(task.key), task.title));
  add_title(rows, context, task);
  rows.text(way_of(context, task, work), column, small_style, RowTie::must);
  if (!task.caution.empty()) {
    rows.text(fmt::format("{}: {}", words.caution, task.caution), column, bold_style, RowTie::must);
  }
  for (const auto& step : task.steps) rows.checked_text(step, column, body_style, RowTie::should);
  add_parts(rows, context, task, column);
  add_values(rows, context, task, column);
  add_marks(rows, context, column);
  rows.blanks(column,
              {{std::string{words.who}, 2},
               {std::string{words.time}, 1},
               {std::string{words.minutes_taken}, 1},
               {std::string{words.notes}, 3.4}},
              RowTie::free);
  rows.end_part();
  rows.gap(3);
}

void add_phases(CardRows& rows, const CardContext& context) {
  const auto& phases = context.card.phases;
  for (std::size_t i = 0; i < phases.size(); ++i) {
    if (phases[i].works.empty() && phases[i].change == StateChange::none) continue;
    rows.heading(fmt::format(fmt::runtime(context.words.step_of_phases), i + 1, phases.size(),
                             word_of(phases[i].energy, context.language)));
    add_change(rows, context, phases[i].change);
    for (const CardWork& work : phases[i].works) add_task(rows, context, task_of(context.card, work.task), work);
  }
}

void add_end(CardRows& rows, const CardContext& context) {
  const CardWords& words = context.words;
  const Column all{0, rows.width_mm()};
  rows.begin_part(std::string{words.end});
  rows.heading(std::string{words.end});
  rows.blanks(all, {{std::string{words.began}}, {std::string{words.ended}}, {std::string{words.given_back}, 2}},
              RowTie::should);
  rows.blanks(all, {{std::string{words.notes}}}, RowTie::should);
  rows.end_part();
}

}  // namespace hw::sheets
