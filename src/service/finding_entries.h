#pragma once
// What an entry about a finding says, in its body and in a sentence.

#include "src/service/finding_edits.h"

namespace hw::service {

// Each fills the entry that it is given, which has its id, kind, machine, person and times already.
void tell_made(Entry& entry, const FindingEdit& edit);
void tell_changed(Entry& entry, const Finding& finding, const FindingChange& change);
void tell_settled(Entry& entry, const Finding& finding, const FindingSettle& edit);
void tell_reopened(Entry& entry, const Finding& finding, const FindingReopen& edit);

}  // namespace hw::service
