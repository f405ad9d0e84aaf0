// The server is killed while people enter: what it had confirmed is there, what it had not can be sent again, and the
// logbook with all that follows from it is unbroken.

#include <algorithm>
#include <cstdlib>
#include <thread>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "libs/sql/test_folder.h"
#include "src/simulate/dice.h"
#include "src/storage/sqlite_store.h"
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

// Enters one edit after the other until the server is gone; says up to which it was confirmed.
int enter(const ServerProcess& server, int next, int end) {
  while (next < end) {
    const Edit edit = edit_of(next);
    const Heard heard = server.post(edit.path, edit.body);
    if (heard.status == 0) break;
    EXPECT_EQ(heard.status, 200) << edit.path << " " << heard.body;
    ++next;
  }
  return next;
}

TEST(Kill, WhatPeopleEnteredIsThereOnceAndTheLogbookIsUnbroken) {
  const char* said = std::getenv("HOURWRIGHT_SEED");
  const std::uint64_t seed = said ? std::strtoull(said, nullptr, 10) : 20260302;
  constexpr int kills = 6, edits = 240;
  const sql::TestFolder folder;
  const auto data = folder.path() / "data";
  found_shop(data, {{"m1", "feed-1", "http://127.0.0.1:9"}});
  simulate::Dice dice(seed);
  int next = 0;
  for (int n = 0; n < kills && next < edits; ++n) {
    ServerProcess server(data);
    ASSERT_TRUE(server.is_up()) << server.said();
    std::thread person([&] { next = enter(server, next, edits); });
    (void)comes_true([] { return false; }, Duration::millis(dice.between(20, 400)));
    server.signal(SIGKILL);
    person.join();
    server.kill();
    // The person sends again what was not confirmed, and, as phones do, what was.
    next = std::max(0, next - 2);
    const auto verdict = storage::verify_logbook(data, {});
    ASSERT_TRUE(verdict) << verdict.error().message;
    EXPECT_TRUE(verdict->breaks.empty()) << verdict->breaks.front().says;
    EXPECT_GE(verdict->entries, next);
  }
  ServerProcess server(data);
  ASSERT_TRUE(server.is_up()) << server.said();
  EXPECT_EQ(enter(server, next, edits), edits) << server.said();
  const auto proof = server.json("/api/logbook/proof");
  EXPECT_EQ(proof.at("entries"), edits);
  EXPECT_TRUE(proof.at("breaks").as_array().empty());
  EXPECT_EQ(server.json("/api/findings").at("findings").as_array().size(), 0u);
  EXPECT_EQ(server.json("/api/findings?state=settled").at("findings").as_array().size(), std::size_t{edits / 4});
  EXPECT_EQ(server.stop(), 0) << server.said();
  fmt::print("seed {}: {} entries, {} kills\n", seed, edits, kills);
}

}  // namespace
}  // namespace hw::faults
