#include "src/terminal/evaluate_command.h"

#include <algorithm>
#include <memory>

#include <CLI/CLI.hpp>

#include "libs/formats/byte_source.h"
#include "src/terminal/evaluate_cases.h"

namespace hw::terminal {
namespace {

constexpr std::size_t case_bytes_max = std::size_t{16} << 20;

struct Evaluation {
  const char* name;
  const char* about;
  EvaluateCase evaluate;
  bool takes_numbers = false;  // a list of numbers is one case: three counts of particles
};

constexpr Evaluation evaluations[] = {
    {"positioning", "ISO 230-2: accuracy and repeatability of an axis", positioning_case},
    {"circular", "ISO 230-4: a circular path", circular_case},
    {"cleanliness", "ISO 4406: particles in oil", cleanliness_case, true},
    {"vibration", "ISO 20816-3 and 10816-1: zones of vibration", vibration_case},
    {"coolant", "Coolant: concentration and what to fill in", coolant_case},
    {"viscosity", "ISO 3448, ASTM D341 and D2270: grade, viscosity over temperature, index", viscosity_case},
    {"bearing", "ISO 281: rating life of a rolling bearing", bearing_case},
    {"air", "ISO 8573-1: classes of compressed air", air_case}};

bool is_list_of_cases(const boost::json::value& tree, bool takes_numbers) {
  const auto* list = tree.if_array();
  if (list == nullptr) return false;
  const auto is_number = [](const boost::json::value& one) { return one.is_number() || one.is_null(); };
  return !takes_numbers || list->empty() || !std::all_of(list->begin(), list->end(), is_number);
}

Answer answer_list(const boost::json::array& cases, EvaluateCase evaluate, bool is_json) {
  if (cases.empty()) return refuse(ErrorCode::bad_input, "the list has no cases");
  std::string json, text;
  const formats::JsonPlace root{};
  for (std::size_t n = 0; n < cases.size(); ++n) {
    const formats::JsonPlace place{&root, {}, n};
    auto one = evaluate(cases[n], place);
    if (!one) {
      const bool is_named = one.error().message.starts_with(place.print());
      return refuse(is_named ? one.error() : one.error().at(place.print()));
    }
    json += (n > 0 ? "," : "") + one->json;
    text += (n > 0 ? "\n" : "") + one->text;
  }
  return Said(is_json ? "[" + json + "]\n" : text);
}

Answer answer_text(const std::string& text, const CaseReading& reading) {
  HW_TAKE(tree, formats::parse_json_tree(text));
  if (is_list_of_cases(tree, reading.takes_numbers)) {
    return answer_list(tree.as_array(), reading.evaluate, reading.is_json);
  }
  HW_TAKE(one, reading.evaluate(tree, formats::JsonPlace{}));
  return Said(reading.is_json ? one.json + "\n" : one.text);
}

}  // namespace

Answer answer_cases(const std::string& file, const CaseReading& reading) {
  HW_TAKE(source, formats::open_file(file));
  HW_TAKE(text, formats::read_all(*source, case_bytes_max));
  auto answer = answer_text(text, reading);
  return answer ? answer : Answer(refuse(answer.error().at(source->name())));
}

StandardView view_of(const condition::StandardNote& note) {
  return {std::string(note.edition), std::string(note.confirmed), std::string(note.from_memory),
          std::string(note.check)};
}

std::string print_note(const condition::StandardNote& note) {
  return fmt::format("  by {}\n  confirmed: {}\n  from memory: {}\n  check in a bought copy: {}\n", note.edition,
                     note.confirmed, note.from_memory, note.check);
}

void add_evaluate_command(CLI::App& app, const Entrances&, Answer& answer) {
  struct Options {
    std::string file;
    bool is_json = false;
  };
  CLI::App* evaluate = app.add_subcommand("evaluate", "Measurements judged by open standards");
  evaluate->require_subcommand(1);
  for (const Evaluation& one : evaluations) {
    const auto options = std::make_shared<Options>();
    CLI::App* command = evaluate->add_subcommand(one.name, one.about);
    command->add_flag("--json", options->is_json, "print JSON");
    command->add_option("file", options->file, "one JSON object, or a list of them; - reads standard input")
        ->required();
    command->callback([options, &one, &answer] {
      answer = answer_cases(options->file, {one.evaluate, options->is_json, one.takes_numbers});
    });
  }
}

}  // namespace hw::terminal
