// The server is killed while stops are agreed and closed: of a closing either all entries are there or none.

#include <algorithm>
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

constexpr int own_tasks = 4;
constexpr int entries_a_stop = own_tasks + 2;  // agreed, each task done, closed

std::string stops_id(int number) { return fmt::format("01941f29-7c00-7aaa-8bbb-{:012}", number); }

std::string signed_body(int number, std::string_view more) {
  return fmt::format(R"({{"id":"{}","by":"Ada"{}}})", stops_id(number), more);
}

void add_own_tasks(const ServerProcess& server) {
  for (int number = 1; number <= own_tasks; ++number) {
    const auto body = signed_body(
        number, R"(,"title":"Grease","assembly":"coolant","work":"lubricate","skill":"technician","energy":"isolated",)"
                R"("minutes":5,"triggers":[{"calendar":"1 month"}])");
    ASSERT_EQ(server.post("/api/machines/m1/tasks", body).status, 200) << server.said();
  }
}

// The nth stop has ids from 100 n on: its own, its closing's, and those of the tasks that were done.
Heard agree_stop(const ServerProcess& server, int stop) {
  std::string tasks = fmt::format(R"("{}")", task_key);
  for (int number = 1; number <= own_tasks; ++number) tasks += fmt::format(R"(,"{}")", stops_id(number));
  return server.post("/api/machines/m1/stops",
                     signed_body(100 * stop, fmt::format(R"(,"on":"2099-03-04","shift":"","tasks":[{}])", tasks)));
}

Heard close_stop(const ServerProcess& server, int stop) {
  std::string done;
  for (int number = 1; number <= own_tasks; ++number) {
    done += fmt::format(R"({}{{"id":"{}","task":"{}","as_found":"worn"}})", number == 1 ? "" : ",",
                        stops_id(100 * stop + 10 + number), stops_id(number));
  }
  return server.post(fmt::format("/api/stops/{}/close", stops_id(100 * stop)),
                     signed_body(100 * stop + 1, fmt::format(R"(,"version":1,"began_at":"2026-03-04T06:00:00Z",)"
                                                             R"("ended_at":"2026-03-04T07:00:00Z","done":[{}])",
                                                             done)));
}

// Agrees and closes one stop after the other until the server is gone; says which is the first that is not confirmed.
int work_on_stops(const ServerProcess& server, int next, int end) {
  for (; next < end; ++next) {
    for (const auto& step : {agree_stop, close_stop}) {
      const Heard heard = step(server, next);
      if (heard.status == 0) return next;
      EXPECT_EQ(heard.status, 200) << heard.body;
    }
  }
  return next;
}

TEST(Kill, OfAStopThatIsClosedAllIsThereOrNothing) {
  const char* said = std::getenv("HOURWRIGHT_SEED");
  const std::uint64_t seed = said ? std::strtoull(said, nullptr, 10) : 20260302;
  constexpr int kills = 6, stops = 60;
  const sql::TestFolder folder;
  const auto data = folder.path() / "data";
  found_shop(data, {{"m1", "feed-1", "http://127.0.0.1:9"}});
  {
    ServerProcess server(data);
    ASSERT_TRUE(server.is_up()) << server.said();
    add_own_tasks(server);
    EXPECT_EQ(server.stop(), 0) << server.said();
  }
  simulate::Dice dice(seed);
  int next = 1;
  for (int n = 0; n < kills && next <= stops; ++n) {
    ServerProcess server(data);
    ASSERT_TRUE(server.is_up()) << server.said();
    std::thread person([&] { next = work_on_stops(server, next, stops + 1); });
    (void)comes_true([] { return false; }, Duration::millis(dice.between(20, 400)));
    server.signal(SIGKILL);
    person.join();
    server.kill();
    const auto verdict = storage::verify_logbook(data, {});
    ASSERT_TRUE(verdict) << verdict.error().message;
    EXPECT_TRUE(verdict->breaks.empty()) << verdict->breaks.front().says;
    EXPECT_LE((verdict->entries - own_tasks) % entries_a_stop, 1) << "a closing is half done";
    EXPECT_GE(verdict->entries - own_tasks, (next - 1) * entries_a_stop);
    next = std::max(1, next - 1);  // sent again, also what was confirmed
  }
  ServerProcess server(data);
  ASSERT_TRUE(server.is_up()) << server.said();
  EXPECT_EQ(work_on_stops(server, next, stops + 1), stops + 1) << server.said();
  EXPECT_EQ(server.json("/api/logbook/proof").at("entries"), own_tasks + stops * entries_a_stop);
  EXPECT_TRUE(server.json("/api/stops").at("stops").as_array().empty());
  EXPECT_EQ(server.json("/api/stops?state=closed").at("stops").as_array().size(), std::size_t{stops});
  EXPECT_EQ(server.stop(), 0) << server.said();
  fmt::print("seed {}: {} stops, {} kills\n", seed, stops, kills);
}

}  // namespace
}  // namespace hw::faults
