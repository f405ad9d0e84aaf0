#pragma once
// What people enter, in the fields of api/openapi.yaml. Each carries an id made by the client (UUIDv7): the same id
// sent again is the same entry.

#include <optional>
#include <string>

#include <boost/describe.hpp>

#include "libs/values/instant.h"
#include "libs/values/local_date.h"
#include "src/service/entry_body.h"
#include "src/service/task_text.h"

namespace hw::service {

struct Signature {
  std::string id;
  std::string by;
  std::optional<Instant> at;       // when it was entered, by the device's clock
  std::optional<Instant> sent_at;  // when it was sent, by the device's clock
};
BOOST_DESCRIBE_STRUCT(Signature, (), (id, by, at, sent_at))

struct DoneEdit : Signature {
  std::optional<std::string> note = {};
  std::optional<AsFound> as_found = {};
};
BOOST_DESCRIBE_STRUCT(DoneEdit, (Signature), (note, as_found))

struct TaskEdit : TaskText {
  std::string id;
  std::string by;
  std::optional<int> version;  // the one that the person saw
};
BOOST_DESCRIBE_STRUCT(TaskEdit, (TaskText), (id, by, version))

struct HourReadingEdit {
  std::string id;
  std::string by;
  std::string counter;
  double display_h = 0;
  std::optional<Instant> read_at;
};
BOOST_DESCRIBE_STRUCT(HourReadingEdit, (), (id, by, counter, display_h, read_at))

struct UseChangeEdit : Signature {
  std::optional<std::string> machine;  // none: every machine
  LocalDate from;
  std::optional<LocalDate> until;
  double factor = 1;
  std::string why;
};
BOOST_DESCRIBE_STRUCT(UseChangeEdit, (Signature), (machine, from, until, factor, why))

struct SettleEdit {
  std::string id;
  std::string by;
  std::string settled_as;
};
BOOST_DESCRIBE_STRUCT(SettleEdit, (), (id, by, settled_as))

// A photo as it came: which bytes, and what the sender says that they are.
struct PhotoEdit {
  std::string id;
  std::string content_type;  // in small letters, without parameters
  std::string bytes;
};

// Refuses an id that is no UUID in its usual form; `field` is its name in what is said.
Result<void> check_id(std::string_view field, std::string_view id);

// Refuses an id that is no UUID in its usual form (8-4-4-4-12 hexadecimal digits), and an empty or overlong name.
Result<void> check_signature(std::string_view id, std::string_view by);
// Refuses what can be no key of a machine, task or check: it is empty or longer than 60 characters. `field` names it.
Result<void> check_key(std::string_view field, std::string_view key);
// Refuses a photo without an id or its SHA-256, and (too_large) more than 20 of them.
Result<void> check_photos(const std::optional<std::vector<PhotoName>>& photos);
// Refuses a text that has to be there and is not, or is more than 2,000 characters. `field` names it.
Result<void> check_text(std::string_view field, std::string_view text);
// Refuses a note of more than 2,000 characters.
Result<void> check_note(const std::optional<std::string>& note);

}  // namespace hw::service
