#pragma once
// What is written about access: who may come in, who came, and what people change about it.

#include "tests/power/writing_scenes.h"

namespace hw::power {

// A lead lets somebody in, who chooses password and PIN, signs in and out; the account is changed and ended.
WritingScene people_let_in();

// A password, a PIN and a second factor changed; sessions ended; a program's token made and ended.
WritingScene own_access_changed();

}  // namespace hw::power
