#pragma once
// What the program shows against what the naive bookkeeping says.

#include "tests/shop_year/books.h"
#include "tests/shop_year/server.h"

namespace hw::shop_year {

// What is compared with what, and as of when.
struct Compared {
  const Server& server;
  const Books& books;
  const Floor& floor;
  const Heard& heard;
  Instant now;  // the server's
  // The right time, where the server has been told everything until now and its clock is right; else hours cannot be
  // compared.
  bool is_live = false;
};

// Every entry once with its content; tasks, findings, stops, stock, orders, hours. Each difference in a sentence.
std::vector<std::string> differences(const Compared& compared);

// The chain of the logbook, and whether every table that follows from the entries is as it follows from them.
std::vector<std::string> broken(const Server& server);

// Makes every view that pages and sheets are made from; what is refused, in a sentence each. `ahead`: also those that
// forecast, which take longer.
std::vector<std::string> refused_views(const Server& server, Instant now, bool ahead);

}  // namespace hw::shop_year
