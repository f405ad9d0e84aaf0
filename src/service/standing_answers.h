#pragma once
// Which answers stand: on one walk the latest of each check corrects those before it, and of several walks the one that
// answered a check last says how it is now.
//
// On one walk the device's own clock orders, since a message may be under way for longer than the next; between walks
// it is the server's.

#include <vector>

#include "src/service/walk_record.h"

namespace hw::service {

// The latest answer of each check of one walk, in no order. They point into `walk`.
std::vector<const AnswerRecord*> standing_answers(const WalkRecord& walk);
// The latest answer of each check of several walks, in order of time. They point into the walks.
std::vector<const AnswerRecord*> standing_answers(const std::vector<const WalkRecord*>& walks);

// Of readings of one check only those that were not corrected on their own walk; their order stays.
std::vector<AnswerRecord> without_corrected(std::vector<AnswerRecord> readings);

}  // namespace hw::service
