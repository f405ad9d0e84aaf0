#include "src/service/finding.h"

#include <algorithm>
#include <tuple>

#include "libs/formats/enum_words.h"

namespace hw::service {
namespace {

Result<Severity> severity_of(std::string_view word) {
  if (const auto severity = formats::parse_word<Severity>(word)) return *severity;
  return refuse(ErrorCode::corrupt, "the logbook's severity \"{}\" is none of {}", word,
                formats::print_words<Severity>());
}

// An empty text takes away what was there; one that is not said leaves it.
void take_text(std::optional<std::string>& field, const std::optional<std::string>& said) {
  if (said) field = said->empty() ? std::nullopt : said;
}

Result<void> take_day(std::optional<LocalDate>& field, const std::optional<std::string>& said) {
  if (!said) return {};
  field.reset();
  if (said->empty()) return {};
  const auto day = parse_local_date(*said);
  if (!day) return refuse(ErrorCode::corrupt, "the logbook's due day does not read: {}", day.error().message);
  field = *day;
  return {};
}

// What "finding made" and "finding changed" both may say.
Result<void> take(Finding& finding, const EntryBody& body) {
  if (body.severity) {
    HW_TAKE(severity, severity_of(*body.severity));
    finding.severity = severity;
  }
  take_text(finding.owner, body.owner);
  take_text(finding.task, body.settling_task);
  return take_day(finding.due_on, body.due_on);
}

Result<Finding> begun_by(const Entry& made) {
  Finding finding;
  finding.id = made.id;
  finding.machine = made.machine;
  finding.what = made.body.what.value_or("");
  finding.point = made.body.point;
  finding.check = made.body.check;
  finding.walk = made.body.walk;
  finding.by = made.by;
  finding.at = made.happened_at;
  return finding;
}

Result<void> follow(Finding& finding, const Entry& entry) {
  if (entry.kind == "finding settled") {
    finding.settled = Settlement{entry.by, entry.happened_at, entry.body.done.value_or("")};
  }
  if (entry.kind == "finding reopened") finding.settled.reset();
  if (entry.kind == "finding made" || entry.kind == "finding changed") HW_TRY(take(finding, entry.body));
  for (const PhotoName& photo : entry.body.photos.value_or(std::vector<PhotoName>{})) finding.photos.push_back(photo);
  return {};
}

bool makes_it(const Entry& entry) { return entry.kind == "finding made"; }

}  // namespace

Result<std::optional<Finding>> finding_of(std::vector<Entry> entries) {
  std::sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) {
    return std::tuple(!makes_it(a), a.happened_at, a.ordinal) < std::tuple(!makes_it(b), b.happened_at, b.ordinal);
  });
  if (entries.empty() || !makes_it(entries.front())) return std::optional<Finding>{};
  HW_TAKE(finding, begun_by(entries.front()));
  for (const Entry& entry : entries) HW_TRY(follow(finding, entry));
  return std::optional{std::move(finding)};
}

bool is_more_pressing(const Finding& one, const Finding& other) {
  const auto rank = [](const Finding& finding) {
    return std::tuple(finding.severity, !finding.due_on, finding.due_on.value_or(LocalDate{}), finding.at, finding.id);
  };
  return rank(one) < rank(other);
}

}  // namespace hw::service
