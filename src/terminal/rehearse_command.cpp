#include "src/terminal/rehearse_command.h"

#include <algorithm>
#include <memory>
#include <thread>

#include <CLI/CLI.hpp>
#include <boost/describe/class.hpp>

#include "libs/formats/byte_source.h"
#include "libs/formats/json.h"
#include "src/plan/workers.h"
#include "src/rehearsal/playing.h"
#include "src/rehearsal/spread.h"
#include "src/terminal/rehearsal_file.h"

namespace hw::terminal {
namespace {

constexpr std::size_t rehearsal_bytes_max = std::size_t{64} << 20;

struct RehearseCall {
  std::string file;
  std::size_t threads = std::clamp<std::size_t>(std::thread::hardware_concurrency(), 1, 64);
  bool is_json = false;
};

struct RehearsalReport {
  int years = 0;
  std::uint64_t seed = 0;
  rehearsal::OutcomeSpread present;
  std::optional<rehearsal::OutcomeSpread> changed, difference;
  std::optional<double> cheaper, same_cost;
};
BOOST_DESCRIBE_STRUCT(RehearsalReport, (), (years, seed, present, changed, difference, cheaper, same_cost))

std::vector<rehearsal::Outcome> play_all(const rehearsal::ShopYear& shop, const RehearsalFile& file,
                                         std::size_t threads) {
  const rehearsal::Playing playing(shop);
  std::vector<rehearsal::Outcome> years(static_cast<std::size_t>(file.years));
  plan::share_out(threads, [&](std::size_t part) {
    const auto [begin, end] = plan::run_of(part, threads, years.size());
    rehearsal::YearDesk desk(playing);
    playing.play({file.seed, begin}, std::span(years).subspan(begin, end - begin), desk);
  });
  return years;
}

std::string row_of(const char* name, const rehearsal::OutcomeSpread& spread) {
  std::string text = fmt::format("{}\n", name);
  const auto line = [&](const char* figure, const rehearsal::Spread& one) {
    text += fmt::format("  {:<16}{:>14.6g}{:>12.3g}{:>14.6g}{:>14.6g}{:>14.6g}\n", figure, one.mean, one.se, one.q5,
                        one.q50, one.q95);
  };
  line("failures", spread.failures);
  line("stops", spread.stops);
  line("tasks done", spread.tasks_done);
  line("hands-on hours", spread.hands_on_hours);
  line("standing hours", spread.standing_hours);
  line("cost", spread.cost);
  return text;
}

std::string print_text(const RehearsalReport& report) {
  std::string text = fmt::format("{} years, seed {}\n\n  {:<16}{:>14}{:>12}{:>14}{:>14}{:>14}\n", report.years,
                                 report.seed, "", "mean", "error", "5 %", "50 %", "95 %");
  text += row_of("present", report.present);
  if (!report.changed) return text;
  text += row_of("changed", *report.changed) + row_of("changed less present", *report.difference);
  return text + fmt::format("\nthe changed plan costs less in {:.1f} % of the years, the same in {:.1f} %\n",
                            100 * *report.cheaper, 100 * *report.same_cost);
}

Answer rehearse(const RehearseCall& call) {
  HW_TAKE(source, formats::open_file(call.file));
  HW_TAKE(text, formats::read_all(*source, rehearsal_bytes_max));
  const auto file = parse_rehearsal(text);
  if (!file) return refuse(file.error().at(call.file));
  RehearsalReport report;
  report.years = file->years;
  report.seed = file->seed;
  const auto present = play_all(file->shop, *file, call.threads);
  report.present = rehearsal::spread_of(present);
  if (!file->changes.empty()) {
    const auto shop = rehearsal::changed(file->shop, file->changes);
    if (!shop) return refuse(shop.error().at(call.file));
    const auto changed = play_all(*shop, *file, call.threads);
    const rehearsal::Difference difference = rehearsal::difference_of(present, changed);
    report.changed = rehearsal::spread_of(changed);
    report.difference = difference.spread;
    report.cheaper = difference.cheaper;
    report.same_cost = difference.same_cost;
  }
  return Said(call.is_json ? formats::print_json(report) + "\n" : print_text(report));
}

}  // namespace

void add_rehearse_command(CLI::App& app, const Entrances&, Answer& answer) {
  const auto call = std::make_shared<RehearseCall>();
  CLI::App* command = app.add_subcommand("rehearse", "Plays years of a shop under other intervals");
  command->add_option("--threads", call->threads, "threads to use; the answer is the same")->check(CLI::Range(1, 64));
  command->add_flag("--json", call->is_json, "print JSON");
  command->add_option("file", call->file, "the shop with its changes, as JSON; - reads standard input")->required();
  command->callback([call, &answer] { answer = rehearse(*call); });
}

}  // namespace hw::terminal
