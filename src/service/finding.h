#pragma once
// A finding: something that is not as it should be, with an owner until it is settled. It is what its entries say, and
// nothing else is kept of it that could not be made again from them.
//
//   finding made       begins it
//   finding changed    another severity, owner, due day or task that will settle it; more photos
//   finding settled    settled, with what was done
//   finding reopened   open again
//
// Those after the first count in the order in which they happened (among equals: in which they were kept), however late
// they arrived: a phone that was away for hours changes what came of it as if it had been there. So a finding that is
// settled may be settled again and one that is open reopened; what happened last stands.

#include <optional>
#include <string>
#include <vector>

#include <boost/describe.hpp>

#include "src/service/records.h"

namespace hw::service {

// How soon something has to be done about it, the most severe first.
enum class Severity { stop_the_machine, before_next_shift, at_the_next_stop, watch };
BOOST_DESCRIBE_ENUM(Severity, stop_the_machine, before_next_shift, at_the_next_stop, watch)

struct Settlement {
  std::string by;
  Instant at;
  std::string done;  // what was done
};
BOOST_DESCRIBE_STRUCT(Settlement, (), (by, at, done))

struct Finding {
  std::string id;  // of the entry "finding made"
  std::string machine;
  std::string what;
  Severity severity = Severity::watch;
  std::optional<std::string> owner;
  std::optional<LocalDate> due_on;
  std::optional<std::string> task;  // that will settle it: its key
  std::optional<int> point;
  std::optional<std::string> check;
  std::optional<std::string> walk;
  std::string by;
  Instant at;  // when it was found
  std::vector<PhotoName> photos;
  std::optional<Settlement> settled;  // nothing while it is open
};
BOOST_DESCRIBE_STRUCT(Finding, (),
                      (id, machine, what, severity, owner, due_on, task, point, check, walk, by, at, photos, settled))

// What the entries about one finding come to, in whatever order they are given; nothing where none made it. Refuses
// (corrupt) a severity or a day that does not read.
Result<std::optional<Finding>> finding_of(std::vector<Entry> entries);

// The order in which findings are shown: the most severe first, then by due day (those without one last), then the
// oldest.
bool is_more_pressing(const Finding& one, const Finding& other);

}  // namespace hw::service
