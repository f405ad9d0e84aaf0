// One seed is one shop over weeks or years, against naive bookkeeping. A seed that fails is printed with the command
// that repeats it.
//
//   HW_SHOP_YEAR_SEEDS=10000   so many seeds instead of 200
//   HW_SHOP_YEAR_FIRST=17      from this one on
//   HW_SHOP_YEAR_DAYS=365      so many days each instead of 40

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <set>
#include <string>

#include <gtest/gtest.h>

#include "src/storage/database_place.h"
#include "src/storage/moving.h"
#include "src/storage/open_store.h"
#include "tests/postgres/test_database.h"
#include "tests/shop_year/faulty_store.h"
#include "tests/shop_year/year.h"

namespace hw::shop_year {
namespace {

// Syncing is another test's matter; here the folders lie in memory where there is room for that.
const bool are_in_memory = [] {
  return std::filesystem::is_directory("/dev/shm") && setenv("TMPDIR", "/dev/shm", 0) == 0;
}();

std::int64_t number_of(const char* variable, std::int64_t otherwise) {
  const char* text = std::getenv(variable);
  return text != nullptr ? std::stoll(text) : otherwise;
}

YearOptions usual() {
  YearOptions options;
  options.days = static_cast<int>(number_of("HW_SHOP_YEAR_DAYS", 40));
  options.open_store = [](const std::filesystem::path& folder) { return storage::open_store(folder); };
  return options;
}

std::string says(std::uint64_t seed, const YearOptions& options, const YearResult& result) {
  return fmt::format(
      "{}\nrepeat it with: HW_SHOP_YEAR_FIRST={} HW_SHOP_YEAR_SEEDS=1 HW_SHOP_YEAR_DAYS={} "
      "build/bin/shop_year_test --gtest_filter='ShopYear.*'",
      fmt::join(result.differences, "\n"), seed, options.days);
}

TEST(ShopYear, EndsAsTheNaiveBookkeepingSaysForEverySeed) {
  const YearOptions options = usual();
  const auto first = static_cast<std::uint64_t>(number_of("HW_SHOP_YEAR_FIRST", 1));
  const auto seeds = static_cast<std::uint64_t>(number_of("HW_SHOP_YEAR_SEEDS", 200));
  YearResult sum;
  for (std::uint64_t seed = first; seed < first + seeds; ++seed) {
    const YearResult result = live_year(seed, options);
    EXPECT_TRUE(result.differences.empty()) << "seed " << seed << ": " << says(seed, options, result);
    sum.kept += result.kept;
    sum.refused += result.refused;
    sum.sent_again += result.sent_again;
    sum.restarts += result.restarts;
    sum.put_back += result.put_back;
    sum.compared += result.compared;
    sum.compared_live += result.compared_live;
    sum.lost_h += result.lost_h;
  }
  std::cout << fmt::format(
      "{} seeds of {} days: {} messages kept, {} refused, {} sent again; {} restarts, {} times put back; compared {} "
      "times, {} of them with hours; {:.0f} h lost on the way\n",
      seeds, options.days, sum.kept, sum.refused, sum.sent_again, sum.restarts, sum.put_back, sum.compared,
      sum.compared_live, sum.lost_h);
  if (seeds < 20) return;
  for (const int much : {sum.refused, sum.sent_again, sum.restarts, sum.put_back, sum.compared_live}) {
    EXPECT_GT(much, static_cast<int>(seeds) / 4) << "it is a world in which something goes wrong";
  }
}

// A shop that begins in a file, is moved into a database at once, and goes on there.
OpenStore open_moved(const std::string& address) {
  return [address](const std::filesystem::path& folder) -> Result<std::unique_ptr<service::Store>> {
    HW_TAKE(place, storage::place_of(folder));
    if (!place.is_on_server()) HW_TRY(storage::move_to_server(folder, address));
    return storage::open_store(folder);
  };
}

TEST(ShopYear, EndsWithTheSameRecordOnBothDatabases) {
  YearOptions options = usual();
  options.is_put_back = false;
  std::set<std::string> records;
  for (const std::uint64_t seed : {101, 102, 103}) {
    options.open_store = usual().open_store;
    const YearResult in_file = live_year(seed, options);
    const TestDatabase database;
    options.open_store = open_moved(database.address());
    const YearResult on_server = live_year(seed, options);
    EXPECT_TRUE(in_file.differences.empty()) << says(seed, options, in_file);
    EXPECT_TRUE(on_server.differences.empty()) << says(seed, options, on_server);
    EXPECT_EQ(on_server.record_sha256, in_file.record_sha256) << "seed " << seed;
    EXPECT_GT(in_file.kept, 50);
    records.insert(in_file.record_sha256);
  }
  EXPECT_EQ(records.size(), 3U) << "each seed is another shop";
}

// Seeds that found something, with the days that it took.
struct Found {
  std::uint64_t seed;
  int days;
  const char* what;
};

class SeedThatFound : public testing::TestWithParam<Found> {};

TEST_P(SeedThatFound, EndsAsTheNaiveBookkeepingSays) {
  YearOptions options = usual();
  options.days = GetParam().days;
  const YearResult result = live_year(GetParam().seed, options);
  EXPECT_TRUE(result.differences.empty()) << GetParam().what << ": " << says(GetParam().seed, options, result);
  EXPECT_GT(result.kept, 0);
}

// clang-format off
INSTANTIATE_TEST_SUITE_P(Kept, SeedThatFound, testing::Values(
    Found{38, 40, "a correction of an entry that names no machine was refused"}));
// clang-format on

// Of the runs of the first seeds: in how many something differs, and in how many in these words.
struct Seen {
  int at_all = 0;
  int in_words = 0;
};
Seen seen_by(const std::function<YearOptions()>& options, std::string_view words) {
  Seen seen;
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    const auto found = live_year(seed, options()).differences;
    seen.at_all += found.empty() ? 0 : 1;
    seen.in_words += std::any_of(found.begin(), found.end(),
                                 [&](const std::string& one) { return one.find(words) != std::string::npos; });
  }
  return seen;
}

YearOptions with(Fault fault) {
  YearOptions options = usual();
  options.open_store = open_faulty(fault, 3);
  return options;
}

TEST(ShopYearSees, AnAcknowledgedEntryThatIsNotThere) {
  const Seen seen = seen_by([] { return with(Fault::loses_an_entry); }, "entries in the logbook");
  EXPECT_EQ(seen.at_all, 4);
  EXPECT_GE(seen.in_words, 2);
}

TEST(ShopYearSees, AnEntryThatIsNotAsItWasSent) {
  EXPECT_EQ(seen_by([] { return with(Fault::alters_an_entry); }, "by of entry").at_all, 4);
}

// Only where the server's clock does not wander can hours be compared to the end.
TEST(ShopYearSees, HoursThatWereCountedAndNotStored) {
  EXPECT_GE(seen_by([] { return with(Fault::loses_counts); }, "hours of").in_words, 1);
}

TEST(ShopYearSees, WhatIsSentAgainAndKeptAgain) {
  const auto forgetful = [] {
    YearOptions options = usual();
    options.tamper = [seen = std::set<std::string>{}](const Act& act) mutable {
      Act another = act;
      if (!seen.insert(act.id).second) another.id.front() = '7';
      return std::vector{another};
    };
    return options;
  };
  EXPECT_EQ(seen_by(forgetful, "nobody made it").at_all, 4);
}

}  // namespace
}  // namespace hw::shop_year
