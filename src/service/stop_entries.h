#pragma once
// What an entry about a stop says, in its body and in a sentence.

#include "src/service/stop_edits.h"

namespace hw::service {

// Each fills the entry that it is given, which has its id, kind, machine, person and times already.
void tell_agreed(Entry& entry, const StopPlan& plan);
void tell_changed(Entry& entry, const Stop& stop, const StopPlan& plan);
void tell_withdrawn(Entry& entry, const Stop& stop, const std::string& why);
void tell_closed(Entry& entry, const Stop& stop, const std::vector<PlannedTask>& tasks, const StopClose& edit);

// The entry of a task that was done in a stop; `title` is the task's.
void tell_done_in(Entry& entry, const Stop& stop, const std::string& title, const StopDone& done);

}  // namespace hw::service
