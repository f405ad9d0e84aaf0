#pragma once
// What people enter about findings and corrections, in the fields of api/openapi.yaml.

#include <optional>
#include <string>
#include <vector>

#include "src/service/edits.h"
#include "src/service/finding.h"

namespace hw::service {

struct FindingEdit : Signature {
  std::string what;
  Severity severity = Severity::watch;
  std::optional<std::string> owner;
  std::optional<LocalDate> due_on;
  std::optional<std::string> task;  // that will settle it
  std::optional<int> point;
  std::optional<std::string> check;
  std::optional<std::string> walk;
  std::optional<std::vector<PhotoName>> photos;
};
BOOST_DESCRIBE_STRUCT(FindingEdit, (Signature), (what, severity, owner, due_on, task, point, check, walk, photos))

// What is left out stays; an empty text takes the owner, due day or task away.
struct FindingChange : Signature {
  std::optional<Severity> severity;
  std::optional<std::string> owner;
  std::optional<std::string> due_on;  // a date, or empty
  std::optional<std::string> task;
  std::optional<std::string> note;
  std::optional<std::vector<PhotoName>> photos;
};
BOOST_DESCRIBE_STRUCT(FindingChange, (Signature), (severity, owner, due_on, task, note, photos))

struct FindingSettle : Signature {
  std::string done;
  std::optional<std::vector<PhotoName>> photos;
};
BOOST_DESCRIBE_STRUCT(FindingSettle, (Signature), (done, photos))

struct FindingReopen : Signature {
  std::string why;
};
BOOST_DESCRIBE_STRUCT(FindingReopen, (Signature), (why))

struct CorrectionEdit : Signature {
  std::string says;  // what is right
};
BOOST_DESCRIBE_STRUCT(CorrectionEdit, (Signature), (says))

// Each refuses (bad_input, naming the field) an id that is no UUID, a text that is missing or too long, a photo without
// its SHA-256, and (too_large) more than 20 photos.
Result<void> check(const FindingEdit& edit);
// Also a change that changes nothing.
Result<void> check(const FindingChange& edit);
Result<void> check(const FindingSettle& edit);
Result<void> check(const FindingReopen& edit);
Result<void> check(const CorrectionEdit& edit);

}  // namespace hw::service
