#include "src/sheets/job_card.h"

#include <algorithm>
#include <set>

#include "libs/http/url.h"
#include "src/sheets/card_marks.h"
#include "src/sheets/card_sections.h"
#include "src/sheets/card_text.h"
#include "src/sheets/labels.h"

namespace hw::sheets {
namespace {

using formats::MmBox;
using formats::MmSize;
using formats::PdfCanvas;
using formats::TextAlign;
using formats::TextStyle;
using formats::TextWeight;

// Margins for a clipboard: its clip holds the upper edge, holes are punched at the left.
constexpr double margin_left_mm = 17;
constexpr double margin_right_mm = 10;
constexpr double first_top_mm = 14;
constexpr double other_top_mm = 19;
constexpr double margin_bottom_mm = 14;
constexpr double code_side_mm = 30;

// Every task is in exactly one work, every work is of a task.
Result<void> check_works(const JobCard& card) {
  std::set<std::string> planned;
  for (const auto& phase : card.phases) {
    for (const auto& work : phase.works) {
      const auto has_it = [&](const auto& task) { return task.key == work.task; };
      if (std::none_of(card.tasks.begin(), card.tasks.end(), has_it) || !planned.insert(work.task).second) {
        return refuse(ErrorCode::bad_input, "phases: \"{}\" is no task of the card, or stands twice", work.task);
      }
    }
  }
  for (const auto& task : card.tasks) {
    if (!planned.contains(task.key)) {
      return refuse(ErrorCode::bad_input, "phases: the task \"{}\" is in none of them", task.key);
    }
  }
  if (planned.empty()) return refuse(ErrorCode::bad_input, "phases: there is no work in them");
  return {};
}

Result<formats::QrCode> code_of(const JobCard& card) {
  if (const auto url = http::parse_url(card.address); !url) return refuse(url.error().at("address"));
  HW_TAKE(code, formats::encode_qr(card.address, formats::QrLevel::medium));
  if (formats::qr_module_mm(code, code_side_mm) >= module_mm_min) return code;
  return refuse(ErrorCode::bad_input,
                "address: {} is too long for a code of {} mm; right is a shorter name of the server", card.address,
                code_side_mm);
}

CardContext context_of(const JobCard& card, CardLanguage language) {
  CardContext context{.card = card, .language = language, .words = words_of(language), .numbers = {}};
  for (const auto& phase : card.phases) {
    if (phase.energy == catalogue::EnergyState::isolated) context.is_isolated = true;
    for (const auto& work : phase.works) {
      context.numbers.emplace(work.task, static_cast<int>(context.numbers.size()) + 1);
    }
  }
  return context;
}

void add_sections(CardRows& rows, const CardContext& context, const formats::QrCode& code) {
  add_head(rows, context, code);
  add_cautions(rows, context);
  add_plan(rows, context);
  add_preparation(rows, context);
  add_phases(rows, context);
  add_end(rows, context);
}

// Which page of how many, and whose.
struct PageNumber {
  std::size_t page = 1;
  std::size_t pages = 1;
};

void draw_edges(PdfCanvas& canvas, const MmSize& size, const CardContext& context, const PageNumber& number) {
  const double width_mm = size.width_mm - margin_left_mm - margin_right_mm;
  const double foot_mm = size.height_mm - margin_bottom_mm + 3;
  canvas.text(std::string{context.words.defers}, {margin_left_mm, foot_mm, width_mm - 24, 4}, {caption_mm});
  canvas.text(fmt::format(fmt::runtime(context.words.page), number.page, number.pages),
              {margin_left_mm + width_mm - 24, foot_mm - 0.5, 24, 4}, {body_mm, TextAlign::right, TextWeight::bold});
  if (number.page == 1) return;
  const JobCard& card = context.card;
  canvas.text(fmt::format("{} · {} · {} · {} {}", context.words.job_card, card.machine.name, card.machine.key,
                          print_day(card.on, context.language), card.shift.name),
              {margin_left_mm, 9, width_mm, 4}, {small_mm});
}

void draw_page(PdfCanvas& canvas, const MmBox& room, std::span<const SheetRow> rows,
               const std::vector<std::size_t>& on_page) {
  double top_mm = room.top_mm;
  for (const std::size_t i : on_page) {
    const double height_mm = rows[i].flow.height_mm;
    if (rows[i].draw) rows[i].draw(canvas, {room.left_mm, top_mm, room.width_mm, height_mm});
    top_mm += height_mm;
  }
}

// The name of what goes on at the top of a page; empty where something begins there.
std::string continued_at(std::span<const SheetRow> rows, std::size_t row) {
  return row > 0 && rows[row - 1].part == rows[row].part ? rows[row].part : "";
}

void draw_pages(PdfCanvas& canvas, const MmSize& size, const CardContext& context, std::span<const SheetRow> rows) {
  std::vector<FlowRow> flow;
  for (const SheetRow& row : rows) flow.push_back(row.flow);
  const double width_mm = size.width_mm - margin_left_mm - margin_right_mm;
  const double last_mm = size.height_mm - margin_bottom_mm;
  const auto pages = split_pages(flow, {last_mm - first_top_mm, last_mm - other_top_mm});
  for (std::size_t i = 0; i < pages.size(); ++i) {
    canvas.begin_page(size);
    draw_edges(canvas, size, context, {i + 1, pages.size()});
    const std::string continued = pages[i].empty() ? "" : continued_at(rows, pages[i].front());
    if (!continued.empty()) {
      canvas.text(fmt::format(fmt::runtime(context.words.continued), continued), {margin_left_mm, 13, width_mm, 4.5},
                  {body_mm, TextAlign::left, TextWeight::bold});
    }
    draw_page(canvas, {margin_left_mm, i == 0 ? first_top_mm : other_top_mm, width_mm, 0}, rows, pages[i]);
  }
}

}  // namespace

MmSize size_of(CardPaper paper) { return paper == CardPaper::letter ? MmSize{215.9, 279.4} : MmSize{210, 297}; }

std::string CardContext::numbers_of(const std::vector<std::string>& tasks) const {
  std::set<int> known;
  for (const auto& task : tasks) {
    if (const auto found = numbers.find(task); found != numbers.end()) known.insert(found->second);
  }
  return fmt::format("{}", fmt::join(known, ", "));
}

Result<std::string> print_job_card(const JobCard& card, CardPaper paper, CardLanguage language) {
  HW_TRY(check_works(card));
  HW_TAKE(code, code_of(card));
  const CardContext context = context_of(card, language);
  const MmSize size = size_of(paper);
  PdfCanvas canvas(fmt::format("{}: {}, {}", context.words.job_card, card.machine.name, print_day(card.on, language)));
  CardRows rows(canvas, size.width_mm - margin_left_mm - margin_right_mm);
  add_sections(rows, context, code);
  draw_pages(canvas, size, context, rows.rows());
  return canvas.finish();
}

}  // namespace hw::sheets
