#include "src/sheets/logbook_table.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "libs/formats/csv.h"

namespace hw::sheets {
namespace {

using service::EntryView;
using service::GivenAnswer;

const std::vector<std::string> header{"ordinal", "happened_on", "happened_at", "heard_at", "machine", "kind",
                                      "task",    "by",          "says",        "note",     "answers", "photos",
                                      "finding", "corrects",    "stray",       "undone",   "id"};

// "Coolant level: as it should be", "pH: 8.9 pH (warning)", "Way oil: as it should be, 0.5 l".
std::string text_of(const GivenAnswer& answer) {
  std::string text = answer.title + ":";
  if (answer.answer) text += " " + *answer.answer;
  if (answer.value) text += fmt::format(" {} {}", *answer.value, answer.unit.value_or(""));
  if (answer.state) text += fmt::format(" ({})", *answer.state);
  if (answer.quantity) text += fmt::format(", {} {}", *answer.quantity, answer.quantity_unit.value_or(""));
  if (answer.note) text += ", " + *answer.note;
  return text;
}

std::string answers_of(const EntryView& entry) {
  std::vector<std::string> texts;
  if (entry.answers) {
    for (const GivenAnswer& answer : *entry.answers) texts.push_back(text_of(answer));
  }
  return fmt::format("{}", fmt::join(texts, "; "));
}

std::string photos_of(const EntryView& entry) {
  std::vector<std::string> ids;
  if (entry.photos) {
    for (const auto& photo : *entry.photos) ids.push_back(photo.id);
  }
  return fmt::format("{}", fmt::join(ids, "; "));
}

std::vector<std::string> cells_of(const EntryView& entry, const Zone& zone) {
  std::vector<std::string> cells{std::to_string(entry.ordinal),
                                 print(zone.date_of(entry.happened_at)),
                                 print(entry.happened_at),
                                 print(entry.at),
                                 entry.machine,
                                 entry.kind,
                                 entry.task.value_or(""),
                                 entry.by,
                                 entry.says,
                                 entry.note.value_or(""),
                                 answers_of(entry),
                                 photos_of(entry),
                                 entry.finding.value_or(""),
                                 entry.corrects.value_or(""),
                                 entry.stray.value_or(""),
                                 entry.undone.value_or(false) ? "yes" : "",
                                 entry.id};
  for (std::string& cell : cells) cell = formats::harmless_cell(cell);
  return cells;
}

}  // namespace

std::string print_logbook(std::span<const EntryView> entries, const Zone& zone) {
  std::vector<std::vector<std::string>> rows;
  for (const EntryView& entry : entries) rows.push_back(cells_of(entry, zone));
  return formats::print_csv(header, rows);
}

}  // namespace hw::sheets
