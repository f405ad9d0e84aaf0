#pragma once
// One run: machines, agent, people, phones, the post, the clocks and the server, by one seed.

#include "tests/shop_year/compare.h"

namespace hw::shop_year {

struct YearOptions {
  int days = 40;
  bool is_put_back = true;  // sometimes, to an older copy of its file; where it has one
  OpenStore open_store;     // how a server opens its database
  // What the server is told in place of an act, while the books hear the act itself.
  std::function<std::vector<Act>(const Act&)> tamper = {};
};

struct YearResult {
  // What differed first, with the day on which it was seen; empty where nothing did.
  std::vector<std::string> differences;
  // How much went on.
  int kept = 0, refused = 0, sent_again = 0, restarts = 0, put_back = 0, compared = 0, compared_live = 0;
  double lost_h = 0;          // unknown time at the end
  std::string record_sha256;  // over every row at the end, where nothing differed
};

YearResult live_year(std::uint64_t seed, const YearOptions& options);

}  // namespace hw::shop_year
