#pragma once
// The real store with one fault built in, to see that the comparison sees it.

#include <memory>

#include "tests/shop_year/server.h"

namespace hw::shop_year {

enum class Fault {
  loses_an_entry,   // a commit that says yes and keeps nothing
  alters_an_entry,  // another name in it than the one that was sent
  loses_counts,     // keeps how far the feed was read, but not what was counted
};

// `after`: so many commits with a task done, or pieces of counting, are as they should be; the next one is not.
OpenStore open_faulty(Fault fault, int after);

}  // namespace hw::shop_year
