#include "src/service/finding_entries.h"

#include <fmt/ranges.h>

#include "libs/formats/enum_words.h"

namespace hw::service {
namespace {

std::string word_of(Severity severity) { return formats::print_word(severity); }

constexpr std::string_view who_decides = "the lead, or the person whom the shop names, decides whether it runs";

// The program tells who decides, since it does not decide itself.
std::string with_who_decides(std::string says, const std::optional<Severity>& severity) {
  if (severity != Severity::stop_the_machine) return says;
  return fmt::format("{}; {}", says, who_decides);
}

// An empty text or list says nothing.
template <class T>
std::optional<T> unless_empty(const std::optional<T>& said) {
  return said && !said->empty() ? said : std::nullopt;
}

// "severity watch; owner Ada; no due day; task seal; 2 photos".
std::string changes_in(const FindingChange& change) {
  std::vector<std::string> all;
  const auto tell = [&](std::string_view field, const std::optional<std::string>& said) {
    if (said) all.push_back(said->empty() ? fmt::format("no {}", field) : fmt::format("{} {}", field, *said));
  };
  if (change.severity) all.push_back("severity " + word_of(*change.severity));
  tell("owner", change.owner);
  tell("due day", change.due_on);
  tell("task", change.task);
  if (const auto photos = unless_empty(change.photos)) {
    all.push_back(photos->size() == 1 ? "a photo" : fmt::format("{} photos", photos->size()));
  }
  if (all.empty()) all.push_back("a note");
  return fmt::format("{}", fmt::join(all, "; "));
}

// A finding in later entries: the beginning of its first line.
std::string heading_of(const Finding& finding) {
  constexpr std::size_t title_bytes_max = 80;
  std::string title = finding.what.substr(0, finding.what.find('\n'));
  if (title.size() <= title_bytes_max) return title;
  std::size_t end = title_bytes_max;
  while ((static_cast<unsigned char>(title[end]) & 0xC0) == 0x80) --end;  // not within a character
  return title.substr(0, end) + "...";
}

}  // namespace

void tell_made(Entry& entry, const FindingEdit& edit) {
  EntryBody& body = entry.body;
  body.finding = entry.id;
  body.what = edit.what;
  body.severity = word_of(edit.severity);
  body.owner = unless_empty(edit.owner);
  if (edit.due_on) body.due_on = print(*edit.due_on);
  body.settling_task = unless_empty(edit.task);
  body.point = edit.point;
  body.check = edit.check;
  body.walk = edit.walk;
  body.photos = unless_empty(edit.photos);
  entry.says = with_who_decides(fmt::format("finding ({}): {}", *body.severity, edit.what), edit.severity);
}

void tell_changed(Entry& entry, const Finding& finding, const FindingChange& change) {
  EntryBody& body = entry.body;
  body.finding = finding.id;
  if (change.severity) body.severity = word_of(*change.severity);
  body.owner = change.owner;
  body.due_on = change.due_on;
  body.settling_task = change.task;
  body.photos = unless_empty(change.photos);
  entry.note = unless_empty(change.note);
  body.title = heading_of(finding);
  entry.says = with_who_decides(fmt::format("{}: {}", *body.title, changes_in(change)), change.severity);
}

void tell_settled(Entry& entry, const Finding& finding, const FindingSettle& edit) {
  entry.body.finding = finding.id;
  entry.body.done = edit.done;
  entry.body.photos = unless_empty(edit.photos);
  entry.body.title = heading_of(finding);
  entry.says = fmt::format("{}: settled: {}", *entry.body.title, edit.done);
}

void tell_reopened(Entry& entry, const Finding& finding, const FindingReopen& edit) {
  entry.body.finding = finding.id;
  entry.body.why = edit.why;
  entry.body.title = heading_of(finding);
  // How severe it was at that moment another phone may still tell, so the sentence must not depend on it.
  entry.says =
      fmt::format("{}: open again: {}; where it stops the machine, {}", *entry.body.title, edit.why, who_decides);
}

}  // namespace hw::service
