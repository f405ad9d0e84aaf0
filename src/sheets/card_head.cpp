#include <algorithm>
#include <array>
#include <set>

#include <fmt/format.h>

#include "src/catalogue/isolation_steps.h"
#include "src/sheets/card_marks.h"
#include "src/sheets/card_sections.h"
#include "src/sheets/card_text.h"
#include "src/sheets/plan_drawing.h"

namespace hw::sheets {
namespace {

using formats::MmBox;
using formats::PdfCanvas;
using formats::TextAlign;
using formats::TextStyle;
using formats::TextWeight;

constexpr double qr_side_mm = 30;

// A word and what it is, as the head's table has them.
struct Fact {
  std::string_view word;
  std::string says;
};

std::vector<Fact> facts_of(const CardContext& context) {
  const JobCard& card = context.card;
  const CardWords& words = context.words;
  const std::string times = card.shift.begins.empty() ? "" : fmt::format("{}–{}", card.shift.begins, card.shift.ends);
  std::vector<Fact> facts{{words.day, print_day(card.on, context.language)}};
  facts.push_back({words.shift, card.shift.name.empty() ? times : fmt::format("{}, {}", card.shift.name, times)});
  facts.push_back({words.energy, std::string{word_of(context.is_isolated ? catalogue::EnergyState::isolated
                                                                         : catalogue::EnergyState::powered_at_rest,
                                                     context.language)}});
  facts.push_back({words.stands, fmt::format(fmt::runtime(words.stands_for), print_minutes(card.minutes_one),
                                             print_minutes(card.minutes_two))});
  facts.push_back({words.agreed, fmt::format(fmt::runtime(words.agreed_by), card.agreed_by,
                                             print_day(card.agreed_on, context.language))});
  return facts;
}

void draw_facts(PdfCanvas& canvas, const MmBox& box, const std::vector<Fact>& facts) {
  constexpr double word_width_mm = 30;
  const double line_mm = box.height_mm / static_cast<double>(facts.size());
  double top_mm = box.top_mm;
  for (const Fact& fact : facts) {
    canvas.text(std::string{fact.word}, {box.left_mm, top_mm, word_width_mm, line_mm}, small_style);
    canvas.text(fact.says, {box.left_mm + word_width_mm, top_mm, box.width_mm - word_width_mm, line_mm}, bold_style);
    top_mm += line_mm;
  }
}

void draw_code(PdfCanvas& canvas, const MmBox& box, const CardContext& context, const formats::QrCode& code) {
  constexpr double caption_width_mm = 36;
  canvas.qr(code, {box.right_mm() - qr_side_mm, box.top_mm, qr_side_mm, qr_side_mm});
  canvas.text(std::string{context.words.scan},
              {box.right_mm() - caption_width_mm, box.top_mm + qr_side_mm, caption_width_mm, 6},
              {caption_mm, TextAlign::right});
}

std::string machine_line(const JobCard& card) {
  std::string line = card.machine.key;
  for (const std::string& part : {card.kind, card.cell, card.plant}) {
    if (!part.empty()) line += " · " + part;
  }
  return line;
}

// "Job card · Yearly service"
std::string card_title(const CardContext& context) {
  const std::string title{context.words.job_card};
  return context.card.service.empty() ? title : fmt::format("{} · {}", title, context.card.service);
}

void add_banner(CardRows& rows, std::string_view says) {
  const TextStyle style{4, TextAlign::centre, TextWeight::bold};
  const std::string text{says};
  const double height_mm = rows.height_mm(text, rows.width_mm() - 6, style) + 4;
  rows.add(height_mm + 2, RowTie::should, [=](PdfCanvas& canvas, const MmBox& box) {
    canvas.box({box.left_mm, box.top_mm, box.width_mm, height_mm}, 1, {1, 0.85});
    canvas.text(text, {box.left_mm + 3, box.top_mm + 2, box.width_mm - 6, height_mm - 4}, style);
  });
}

// The points of the machine that the card speaks of.
std::set<int> places_of(const CardContext& context) {
  std::set<int> places;
  for (const auto& task : context.card.tasks) {
    if (task.point) places.insert(*task.point);
  }
  if (!context.is_isolated) return places;
  for (const auto& one : context.card.isolation.points) {
    if (one.point) places.insert(*one.point);
  }
  return places;
}

std::vector<catalogue::Point> named_places(const CardContext& context, const std::set<int>& places) {
  std::vector<catalogue::Point> named;
  for (const auto& point : context.card.points) {
    if (places.contains(point.number)) named.push_back(point);
  }
  std::sort(named.begin(), named.end(), [](const auto& a, const auto& b) { return a.number < b.number; });
  return named;
}

void draw_legend(PdfCanvas& canvas, const MmBox& box, const std::vector<catalogue::Point>& places) {
  constexpr double line_mm = 6;
  const auto lines = std::max<std::size_t>(1, static_cast<std::size_t>(box.height_mm / line_mm));
  const std::size_t columns = std::max<std::size_t>(1, (places.size() + lines - 1) / lines);
  const double width_mm = box.width_mm / static_cast<double>(columns);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const std::size_t column = i / lines;
    const double left_mm = box.left_mm + width_mm * static_cast<double>(column);
    const double top_mm = box.top_mm + line_mm * static_cast<double>(i % lines);
    draw_place(canvas, {left_mm + place_radius_mm, top_mm + line_mm / 2}, places[i].number);
    const double text_left_mm = 2 * place_radius_mm + 1.5;
    canvas.text(places[i].title, {left_mm + text_left_mm, top_mm + 1.3, width_mm - text_left_mm - 1, line_mm - 1.3},
                body_style);
  }
}

// What stands in the box of cautions.
std::vector<std::string> cautions_of(const CardContext& context) {
  std::vector<std::string> cautions;
  for (const auto& one : catalogue::isolation_cautions()) {
    if (!context.is_isolated && one.scope == catalogue::CautionScope::isolated_stop) continue;
    cautions.push_back(context.in_language(std::string{one.text}, std::string{one.text_de}));
  }
  if (context.is_isolated) return cautions;
  std::string points;
  for (const auto& point : context.card.isolation.points) {
    points += points.empty() ? "" : ", ";
    points += context.in_language(point.title, point.title_de);
  }
  if (!points.empty()) cautions.push_back(fmt::format(fmt::runtime(context.words.not_isolated), points));
  return cautions;
}

void add_kit(CardRows& rows, const CardContext& context) {
  rows.heading(std::string{context.words.kit});
  const Column all{0, rows.width_mm()};
  if (context.card.kit.empty()) rows.text(std::string{context.words.no_kit}, all, body_style, RowTie::free);
  for (const CardPart& part : context.card.kit) {
    const std::string tasks = context.numbers_of(part.tasks);
    std::string line = fmt::format("{} {}  {}", print_number(part.quantity, context.language), part.unit, part.name);
    if (!part.shelf.empty()) line += "  [" + part.shelf + "]";
    if (!tasks.empty()) line += "  (" + fmt::format(fmt::runtime(context.words.for_tasks), tasks) + ")";
    rows.checked_text(line, all, body_style, RowTie::free);
  }
}

}  // namespace

void add_head(CardRows& rows, const CardContext& context, const formats::QrCode& code) {
  if (context.card.state == CardState::withdrawn) add_banner(rows, context.words.withdrawn);
  if (context.card.state == CardState::closed) add_banner(rows, context.words.closed_already);
  const auto facts = facts_of(context);
  constexpr double height_mm = 42;
  rows.add(height_mm, RowTie::must, [&context, &code, facts](PdfCanvas& canvas, const MmBox& box) {
    const double width_mm = box.width_mm - qr_side_mm - 4;
    canvas.text(card_title(context), {box.left_mm, box.top_mm, width_mm, 4}, small_style);
    canvas.text(context.card.machine.name, {box.left_mm, box.top_mm + 3, width_mm, 8.5},
                {6.5, TextAlign::left, TextWeight::bold});
    canvas.text(machine_line(context.card), {box.left_mm, box.top_mm + 11.3, width_mm, 4.5}, body_style);
    draw_facts(canvas, {box.left_mm, box.top_mm + 17.5, width_mm, 22}, facts);
    draw_code(canvas, box, context, code);
  });
}

void add_cautions(CardRows& rows, const CardContext& context) {
  const auto cautions = cautions_of(context);
  const double width_mm = rows.width_mm() - 8;
  constexpr double space_mm = 0.8;
  std::vector<double> heights_mm;
  double height_mm = 8.5;
  for (const auto& caution : cautions) {
    heights_mm.push_back(rows.height_mm(caution, width_mm - 3, body_style));
    height_mm += heights_mm.back() + space_mm;
  }
  rows.add(
      height_mm + 2, RowTie::free,
      [=, title = std::string{context.words.caution}](PdfCanvas& canvas, const MmBox& box) {
        canvas.box({box.left_mm, box.top_mm, box.width_mm, height_mm}, 1, {0.9, 1.0});
        canvas.text(title, {box.left_mm + 4, box.top_mm + 1.8, width_mm, 5}, {3.6, TextAlign::left, TextWeight::bold});
        double top_mm = box.top_mm + 7;
        for (std::size_t i = 0; i < cautions.size(); ++i) {
          canvas.text("–", {box.left_mm + 4, top_mm, 3, heights_mm[i]}, body_style);
          canvas.text(cautions[i], {box.left_mm + 7, top_mm, width_mm - 3, heights_mm[i]}, body_style);
          top_mm += heights_mm[i] + space_mm;
        }
      });
}

void add_plan(CardRows& rows, const CardContext& context) {
  const auto places = places_of(context);
  const auto named = named_places(context, places);
  const double side_mm = named.size() > 6 ? 76 : 54;  // few places are told apart on a small plan as well
  rows.heading(std::string{context.words.places});
  rows.add(side_mm + 5, RowTie::free, [&context, places, named, side_mm](PdfCanvas& canvas, const MmBox& box) {
    const MmBox plan{box.left_mm, box.top_mm, side_mm, side_mm};
    draw_plan(canvas, plan, drawing_of(context.card.machine.kind), context.card.points, places);
    canvas.text(std::string{context.words.front}, {plan.left_mm, plan.bottom_mm() + 0.3, side_mm, 3},
                {caption_mm, TextAlign::centre});
    draw_legend(canvas, {box.left_mm + side_mm + 6, box.top_mm, box.width_mm - side_mm - 6, side_mm}, named);
  });
}

void add_preparation(CardRows& rows, const CardContext& context) {
  const Column all{0, rows.width_mm()};
  if (!context.card.note.empty()) {
    rows.heading(std::string{context.words.note});
    rows.text(context.card.note, all, body_style, RowTie::free);
  }
  if (!context.card.findings.empty()) rows.heading(std::string{context.words.findings});
  for (const CardFinding& finding : context.card.findings) {
    const std::string where = finding.where.empty() ? "" : finding.where + ": ";
    rows.checked_text(where + finding.what, all, body_style, RowTie::free);
  }
  add_kit(rows, context);
  rows.gap(2);
}

}  // namespace hw::sheets
