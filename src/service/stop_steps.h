#pragma once
// Several stops agreed, changed and withdrawn at once: all of it in one transaction, or nothing.

#include <string>
#include <vector>

#include "src/service/open_shop.h"
#include "src/service/stop_edits.h"
#include "src/service/stop_views.h"

namespace hw::service {

enum class StepKind { withdraw, change, agree };  // in the order in which they are taken

struct StopStep {
  StepKind kind = StepKind::agree;
  std::string entry;  // the id of its entry; of an agreed one also the stop's
  std::string stop;   // that is changed or withdrawn
  int version = 0;    // of that stop, as it was seen
  std::string machine;
  LocalDate on;  // these four: how the stop is to be
  std::string shift;
  std::vector<std::string> tasks;
  std::string note;  // of one that is withdrawn: why
};

struct AcceptedView {
  std::vector<StopView> stops;  // one for each step, as they are then
  std::vector<EntryView> entries;
};
BOOST_DESCRIBE_STRUCT(AcceptedView, (), (stops, entries))

// Errors as of agree_stop, change_stop and withdraw_stop; a task may go from one of the stops to another.
Result<AcceptedView> take_steps(OpenShop& shop, std::vector<StopStep> steps, const Signature& signature, Instant now);

// What those entries came to, where they are in the logbook already; nothing where none of them is. Errors: conflict
// where only some are: the ids were made for something else.
Result<std::optional<AcceptedView>> taken_before(const OpenShop& shop, const std::vector<std::string>& entries);

// The id of one of several entries that a person makes with one id: a UUIDv7 of the same time, always the same.
std::string id_within(std::string_view id, std::string_view what);

}  // namespace hw::service
