#pragma once
// Who does what in the demo, and the ids of their entries.

#include "src/service/records.h"
#include "src/simulate/dice.h"

namespace hw::simulate {

// A UUIDv7 of that moment.
std::string uuid_of(Dice& dice, Instant at);

// One of the shop's people with that skill; "somebody" where there is none.
const std::string& somebody(const service::ShopRecord& shop, catalogue::Skill skill, Dice& dice);

}  // namespace hw::simulate
