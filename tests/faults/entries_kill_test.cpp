// The server is killed while people enter: what it had confirmed is there, what it had not can be sent again, and the
// logbook with all that follows from it is unbroken. HOURWRIGHT_KILLS says how often.

#include <algorithm>
#include <atomic>
#include <cstdlib>
#include <thread>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "src/simulate/dice.h"
#include "src/storage/open_store.h"
#include "tests/faults/server_process.h"
#include "tests/faults/shop_folder.h"

namespace hw::faults {
namespace {

std::string id_of(int number) { return fmt::format("01941f29-7c00-7aaa-8bbb-{:012}", number); }

struct Edit {
  std::string path;
  std::string body;
};

// A finding, a change of it, a task done, and the finding settled; four edits each round.
Edit edit_of(int number) {
  const int finding = number / 4 * 4;
  const std::string of_finding = "/api/findings/" + id_of(finding);
  const auto body = [&](std::string_view more) {
    return fmt::format(R"({{"id":"{}","by":"Ada"{}}})", id_of(number), more);
  };
  switch (number % 4) {
    case 0:
      return {"/api/machines/m1/findings", body(R"(,"what":"Oil","severity":"watch")")};
    case 1:
      return {of_finding + "/change", body(R"(,"severity":"at the next stop","owner":"Bo")")};
    case 2:
      return {fmt::format("/api/machines/m1/tasks/{}/done", task_key), body("")};
    default:
      return {of_finding + "/settle", body(R"(,"done":"Wiped and sealed")")};
  }
}

// Enters one edit after the other until the server is gone; `confirmed` rises with each that is.
void enter(const ServerProcess& server, std::atomic<int>& confirmed, int next, int end) {
  for (; next < end; ++next) {
    const Edit edit = edit_of(next);
    const Heard heard = server.post(edit.path, edit.body);
    if (heard.status == 0) return;
    EXPECT_EQ(heard.status, 200) << edit.path << " " << heard.body;
    confirmed = std::max(confirmed.load(), next + 1);
  }
}

// A person enters until so many more are confirmed, and the server is killed while it has the next ones in hand.
void enter_and_kill(const std::filesystem::path& data, std::atomic<int>& confirmed, int more) {
  ServerProcess server(data);
  ASSERT_TRUE(server.is_up()) << server.said();
  const int wanted = confirmed + more;
  // The person sends again what was not confirmed, and, as phones do, what was.
  std::thread person([&] { enter(server, confirmed, std::max(0, confirmed - 2), wanted + 1000); });
  const bool came = comes_true([&] { return confirmed >= wanted; });
  server.signal(SIGKILL);
  person.join();
  server.kill();
  ASSERT_TRUE(came) << server.said();
}

// Every entry is there that was confirmed, and nothing that follows from entries is broken.
void expect_all_is_there(const std::filesystem::path& data, int confirmed) {
  const auto verdict = storage::verify_logbook(data, {});
  ASSERT_TRUE(verdict) << verdict.error().message;
  ASSERT_TRUE(verdict->breaks.empty()) << verdict->breaks.front().says;
  ASSERT_GE(verdict->entries, confirmed);
}

TEST(Kill, WhatPeopleEnteredIsThereOnceAndTheLogbookIsUnbroken) {
  const auto number_or = [](const char* variable, std::uint64_t otherwise) {
    const char* said = std::getenv(variable);
    return said ? std::strtoull(said, nullptr, 10) : otherwise;
  };
  const std::uint64_t seed = number_or("HOURWRIGHT_SEED", 20260302);
  const auto kills = static_cast<int>(number_or("HOURWRIGHT_KILLS", 200));
  const sql::TestFolder folder;
  const auto data = folder.path() / "data";
  found_shop(data, {{"m1", "feed-1", "http://127.0.0.1:9"}});
  simulate::Dice dice(seed);
  std::atomic<int> confirmed = 0;
  for (int n = 0; n < kills; ++n) {
    ASSERT_NO_FATAL_FAILURE(enter_and_kill(data, confirmed, static_cast<int>(dice.between(1, 5)))) << "kill " << n;
    if (n % 10 != 9) continue;
    ASSERT_NO_FATAL_FAILURE(expect_all_is_there(data, confirmed)) << "kill " << n;
  }
  const int edits = (confirmed / 4 + 1) * 4;  // also the one that may be there unconfirmed
  {
    ServerProcess server(data);
    ASSERT_TRUE(server.is_up()) << server.said();
    enter(server, confirmed, std::max(0, confirmed - 2), edits);
    EXPECT_EQ(server.stop(), 0) << server.said();
  }
  ASSERT_NO_FATAL_FAILURE(expect_all_is_there(data, edits));
  const auto store = std::move(*storage::open_store(data));
  std::int64_t ordinal = 0;
  for (int number = 0; number < edits; ++number) {
    const auto entry = *store->entry(id_of(number));
    ASSERT_TRUE(entry) << "entry " << number << " was confirmed";
    EXPECT_EQ(entry->ordinal, ++ordinal) << "each once, in the order in which they were entered";
  }
  EXPECT_TRUE(store->open_findings({})->empty());
  EXPECT_EQ(store->settled_findings({}, edits)->size(), static_cast<std::size_t>(edits / 4));
  fmt::print("seed {}: {} entries, {} kills\n", seed, edits, kills);
}

}  // namespace
}  // namespace hw::faults
