#include "src/terminal/figures_command.h"

#include <cmath>
#include <memory>
#include <numeric>

#include <CLI/CLI.hpp>

#include "libs/formats/json.h"
#include "src/month/figure_notes.h"
#include "src/terminal/evaluate_cases.h"

namespace hw::terminal {
namespace {

using month::FigureKey;
using month::KeyFigure;
using MaybeNumber = formats::OrNull<double>;

// Hours, or any other unit of time.
struct FiguresCase {
  std::optional<double> PBT, APT;               // planned busy time, actual production time
  std::optional<std::vector<double>> TBF, TTR;  // between failures, one more than there were; to repair, one for each
  std::optional<double> CMT, PMT;               // corrective and planned maintenance time
};
BOOST_DESCRIBE_STRUCT(FiguresCase, (), (PBT, APT, TBF, TTR, CMT, PMT))

struct FigureLine {
  std::string key;
  std::string title;
  std::string unit;
  MaybeNumber value;
  std::optional<double> low, high, at_least;
  std::optional<std::string> none;
  std::string definition;
  std::string formula;
  StandardView standard;
};
BOOST_DESCRIBE_STRUCT(FigureLine, (),
                      (key, title, unit, value, low, high, at_least, none, definition, formula, standard))

struct FiguresView {
  MaybeNumber availability_APT_over_PBT, technical_availability_mtbf, mtbf_per_failure, mtbf_iso22400_FE_plus_1,
      mttr_per_failure, mttr_iso22400_FE_plus_1, corrective_ratio, mtbf_at_least;
  double confidence = month::confidence;
  std::vector<FigureLine> figures;
};
BOOST_DESCRIBE_STRUCT(FiguresView, (),
                      (availability_APT_over_PBT, technical_availability_mtbf, mtbf_per_failure,
                       mtbf_iso22400_FE_plus_1, mttr_per_failure, mttr_iso22400_FE_plus_1, corrective_ratio,
                       mtbf_at_least, confidence, figures))

// Which field of the view a figure stands in besides the list; the other figures need a shop.
struct NamedFigure {
  FigureKey key;
  MaybeNumber FiguresView::*field;
};
constexpr NamedFigure named_figures[] = {{FigureKey::availability, &FiguresView::availability_APT_over_PBT},
                                         {FigureKey::technical_availability, &FiguresView::technical_availability_mtbf},
                                         {FigureKey::mtbf_by_failures, &FiguresView::mtbf_per_failure},
                                         {FigureKey::mtbf_by_iso_22400, &FiguresView::mtbf_iso22400_FE_plus_1},
                                         {FigureKey::mttr_by_failures, &FiguresView::mttr_per_failure},
                                         {FigureKey::mttr_by_iso_22400, &FiguresView::mttr_iso22400_FE_plus_1},
                                         {FigureKey::corrective_ratio, &FiguresView::corrective_ratio}};

Result<double> sum_of(const char* name, const std::vector<double>& times) {
  for (const double time : times) {
    if (!std::isfinite(time) || time < 0) {
      return refuse(ErrorCode::bad_input, "{}: {} is no time; right is 0 or more", name, time);
    }
  }
  return std::accumulate(times.begin(), times.end(), 0.0);
}

Result<void> add_failures(month::MonthSums& sums, const FiguresCase& given) {
  const std::vector<double> between = given.TBF.value_or(std::vector<double>{});
  const std::vector<double> repairs = given.TTR.value_or(std::vector<double>{});
  if (between.empty() && repairs.empty()) return {};
  if (between.size() != repairs.size() + 1) {
    return refuse(ErrorCode::bad_input,
                  "TBF: {} periods with {} repairs; right is one period more than repairs: before, between and after "
                  "the failures",
                  between.size(), repairs.size());
  }
  HW_TAKE(between_h, sum_of("TBF", between));
  HW_TAKE(repair_h, sum_of("TTR", repairs));
  sums.between_h = between_h;
  sums.repair_h = repair_h;
  sums.failures = static_cast<int>(repairs.size());
  return {};
}

Result<month::MonthSums> sums_of(const FiguresCase& given) {
  month::MonthSums sums;
  sums.machines = 1;
  HW_TRY(add_failures(sums, given));
  const std::pair<const char*, std::pair<std::optional<double>, double*>> plain[] = {
      {"PBT", {given.PBT, &sums.planned_h}},
      {"APT", {given.APT, &sums.operating_h}},
      {"CMT", {given.CMT, &sums.corrective_h}},
      {"PMT", {given.PMT, &sums.stops_h}}};
  for (const auto& [name, one] : plain) {
    HW_TAKE(time, sum_of(name, {one.first.value_or(0)}));
    *one.second = time;
  }
  if (given.PBT && sums.operating_h > sums.planned_h) {
    return refuse(ErrorCode::bad_input, "APT: {} is more than the PBT of {}; right is a part of it", sums.operating_h,
                  sums.planned_h);
  }
  HW_TRY(check(sums));
  return sums;
}

FigureLine line_of(const KeyFigure& figure) {
  const month::FigureNote& note = month::note_of(figure.key);
  FigureLine line{.key = formats::print_word(figure.key),
                  .title = std::string(note.title),
                  .unit = std::string(note.unit),
                  .value = formats::or_null(figure.value),
                  .low = figure.low,
                  .high = figure.high,
                  .at_least = figure.at_least,
                  .none = {},
                  .definition = std::string(note.definition),
                  .formula = std::string(note.formula),
                  .standard = view_of(note.standard)};
  if (figure.none) line.none = formats::print_word(*figure.none);
  return line;
}

std::string print_figure(const FigureLine& line) {
  const std::string unit = line.unit == "1" ? "" : " " + line.unit;
  std::string text = line.value ? fmt::format("{}: {:.6g}{}\n", line.title, *line.value, unit)
                                : fmt::format("{}: no value ({})\n", line.title, line.none.value_or("not given"));
  text += fmt::format("  {}\n  {}\n", line.formula, line.definition);
  if (line.at_least) {
    text += fmt::format("  with {:g} % confidence at least {:.6g} h (chi-square)\n", 100 * month::confidence,
                        *line.at_least);
  }
  return text + fmt::format("  by {}\n  confirmed: {}\n  from memory: {}\n  check in a bought copy: {}\n",
                            line.standard.edition, line.standard.confirmed, line.standard.memory, line.standard.check);
}

// {"PBT", "APT", "TBF": [...], "TTR": [...], "CMT", "PMT"}; what is left out leaves its figures without a value.
Result<CaseAnswer> figures_case(const boost::json::value& tree, const formats::JsonPlace& place) {
  HW_TAKE(given, read_case<FiguresCase>(tree, place));
  HW_TAKE(sums, sums_of(given));
  FiguresView view;
  std::string text;
  const auto all = month::key_figures(sums);
  for (const auto& [key, field] : named_figures) {
    const KeyFigure& figure = all[static_cast<std::size_t>(key)];
    view.*field = formats::or_null(figure.value);
    if (figure.at_least) view.mtbf_at_least = formats::or_null(figure.at_least);
    view.figures.push_back(line_of(figure));
    text += print_figure(view.figures.back());
  }
  return CaseAnswer{formats::print_json(view), text};
}

}  // namespace

void add_figures_command(CLI::App& app, const Entrances&, Answer& answer) {
  struct Options {
    std::string file;
    bool is_json = false;
  };
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand("figures", "Availability, MTBF, MTTR and corrective ratio of a month");
  command->add_flag("--json", options->is_json, "print JSON");
  command->add_option("file", options->file, "one JSON object, or a list of them; - reads standard input")->required();
  command->callback([options, &answer] {
    answer = answer_cases(options->file, {figures_case, options->is_json, false});
  });
}

}  // namespace hw::terminal
