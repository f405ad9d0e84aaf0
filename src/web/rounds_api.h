#pragma once
// The routes of rounds: what is to be walked, setting out, answering.

#include "src/web/api.h"

namespace hw::web {

// The parts outlive the router.
void add_rounds(http::Router& router, const ApiParts& parts);

}  // namespace hw::web
